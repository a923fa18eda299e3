import { bike } from './bike.ts';
import type { KeptCommand } from './kept.ts';

/** Every command about what a club or a shop keeps, in the order help shows them. */
export const KEPT_COMMANDS: readonly KeptCommand[] = [bike];
