import { bike } from './bike.ts';
import { data } from './data.ts';
import { job } from './job.ts';
import type { KeptCommand } from './kept.ts';
import { settings } from './settings.ts';
import { answer } from './standard-answer.ts';

/** Every command about what a club or a shop keeps, in the order help shows them. */
export const KEPT_COMMANDS: readonly KeptCommand[] = [bike, answer, job, data, settings];
