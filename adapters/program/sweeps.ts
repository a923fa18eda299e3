import { errorData, type Log } from '../../src/log.ts';

/** Tells the log of every sweep of what was kept for long enough. */
export function sweepsTo(log: Log) {
  return {
    swept: (swept: object) => log.info(swept, 'swept what was kept for long enough'),
    fault: (error: unknown) => log.warn(errorData(error), 'could not sweep; soon again'),
  };
}
