import { chain } from './chain.ts';
import { chainline } from './chainline.ts';
import type { Command } from './command.ts';
import { convert } from './convert.ts';
import { gears } from './gears.ts';
import { mount } from './mount.ts';
import { torque } from './torque.ts';
import { wear } from './wear.ts';
import { weight } from './weight.ts';

/** Commands that speak of no bike, only of a topic; the workbench answers them itself. */
export const TOPIC_COMMANDS: readonly string[] = ['help', 'measure'];

/** Every command that answers a question about a bike, in the order help shows them. */
export const COMMANDS: readonly Command[] = [convert, gears, chain, mount, chainline, torque, weight, wear];
