import { randomBytes } from 'node:crypto';
import { setTimeout as wait } from 'node:timers/promises';

/** Clock, patience and chance as programs hand them to what they run. */

export const nowMs = (): number => Date.now();

/** Settles after so many milliseconds, and keeps no program from ending. */
export const pause = (ms: number): Promise<void> => wait(ms, undefined, { ref: false });

/** Eight letters: among a million lines about payloads of one day it is nearly always alone. */
export const logId = (): string => randomBytes(4).toString('hex');
