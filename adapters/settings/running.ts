import type { z } from 'zod';
import { type Where, whereKept } from '../../src/records/where.ts';
import type { Reading } from './reading.ts';
import type { RunningSettings } from './settings.ts';

/** What every program that answers on a platform is told. */
export type Running = {
  readonly logLevel: z.output<typeof RunningSettings>['LOG_LEVEL'];
  readonly records: Where;
  /** Who brings the tables up to date: the program when it starts, or somebody else it waits for. */
  readonly migrate: 'start' | 'wait';
  /** Where it can be watched; null where it is not. */
  readonly watch: { readonly host: string; readonly port: number } | null;
};

type Told = z.output<typeof RunningSettings>;

export function runningOf(told: Told): Running {
  return {
    logLevel: told.LOG_LEVEL,
    records: whereKept(told),
    migrate: told.DATABASE_MIGRATE,
    watch: told.WATCH_PORT === undefined ? null : { host: told.WATCH_HOST, port: told.WATCH_PORT },
  };
}

/** Says so where the port for watching is the one that people's questions come to. */
export function checkWatchPort<T extends Told>({ told, fault }: Reading<T>, name: string, port: number): void {
  if (port !== 0 && told.WATCH_PORT === port) fault(`WATCH_PORT and ${name} are the same port`);
}
