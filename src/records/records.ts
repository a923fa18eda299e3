import type { Answers } from './answers.ts';
import type { Bikes } from './bikes.ts';
import type { Delivery } from './delivery.ts';
import type { Installations } from './installations.ts';
import type { Jobs } from './jobs.ts';
import type { Place } from './place.ts';
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
  readonly deliveries: {
    /**
     * The records for the work of one delivery. Its first change also keeps that the delivery was taken, both or
     * neither; every change throws `DeliveredBefore`, and changes nothing, where somebody else took it first.
     */
    readonly once: (delivery: Delivery, atMs: number) => Records;
    /** Whether somebody else took it, and has changed what it asks for. */
    readonly isOthers: (place: Place, delivery: Delivery) => Promise<boolean>;
  };
};
