import type { Log } from '../../src/log.ts';
import { watchedDesk } from './desk.ts';
import { openMetrics } from './metrics.ts';
import { watchedPictures } from './pictures.ts';
import { openWatchPort } from './port.ts';
import { readinessOf } from './readiness.ts';
import { watchedRecords } from './records.ts';
import type { Sources } from './sources.ts';
import type { Watch } from './watch.ts';

/** Opened before all else, so that a start can be watched, and closed after all else. */
export async function openWatch(
  platform: string,
  at: { readonly host: string; readonly port: number },
  isEnding: () => boolean,
  log: Log,
): Promise<Watch> {
  let sources: Sources = {};
  const readiness = () => readinessOf(sources, isEnding());
  const metrics = openMetrics(
    platform,
    () => sources,
    () => readiness().ready,
  );
  const { port, close } = await openWatchPort(at, { readiness, metrics }, log);
  if (port !== null) log.info({ watchPort: port }, 'can be watched');
  return {
    notice: metrics.happened,
    desk: (desk) => watchedDesk(desk, metrics),
    records: (records) => watchedRecords(records, metrics),
    pictures: (pictures) => watchedPictures(pictures, metrics),
    follow: (more) => {
      sources = { ...sources, ...more };
    },
    close,
  };
}
