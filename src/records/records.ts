import type { Answers } from './answers.ts';
import type { Bikes } from './bikes.ts';
import type { Installations } from './installations.ts';
import type { Jobs } from './jobs.ts';
import type { Privacy } from './privacy.ts';
import type { Receipts } from './receipts.ts';
import type { SettingsKept } from './settings.ts';

/**
 * What a club or a shop keeps. Every function reads and writes within one place; each either did all it says or nothing,
 * and throws `StorageAway` when storage cannot be used. What a person may cause comes back as a value.
 */
export type Records = {
  readonly bikes: Bikes;
  readonly answers: Answers;
  readonly jobs: Jobs;
  readonly receipts: Receipts;
  readonly settings: SettingsKept;
  readonly privacy: Privacy;
  readonly installations: Installations;
};
