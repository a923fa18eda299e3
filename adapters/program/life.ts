import { errorData, type Log } from '../../src/log.ts';
import type { Lines } from './log-lines.ts';
import { pause } from './machine.ts';

/**
 * Transports give what has begun eight seconds; the rest closes in moments. Half of the thirty seconds that whoever runs
 * programs usually waits before ending one by force (Kubernetes, `terminationGracePeriodSeconds`).
 */
const LONGEST_END_MS = 15_000;

export type Life = {
  /** What is opened here is closed at the end, the last first. */
  readonly opened: AsyncDisposableStack;
  readonly isEnding: () => boolean;
  /** Begins the end; the program then exits with the code that the first who ended it gave. */
  readonly end: (code: number) => void;
};

/**
 * Starts a program and keeps it until it is told to end, by a signal or by what it cannot do without. Then no more is
 * taken, what has begun is finished, and all is closed. `start` gives what the log should say once it answers.
 */
export async function live(
  log: Log,
  { emptied }: Pick<Lines, 'emptied'>,
  start: (life: Life) => Promise<object>,
): Promise<void> {
  const opened = new AsyncDisposableStack();
  let isEnding = false;
  const closed = async (): Promise<boolean> => {
    try {
      await opened.disposeAsync();
      return true;
    } catch (error) {
      log.error(errorData(error), 'not all could be closed');
      return false;
    }
  };
  const ended = async (): Promise<boolean> => {
    log.info({}, 'ending: no more is taken, what has begun is finished');
    const isClosed = await Promise.race([closed(), pause(LONGEST_END_MS).then(() => false)]);
    if (isClosed) log.info({}, 'ended');
    else log.error({}, 'ended before all was closed');
    await emptied();
    return isClosed;
  };
  const end = (code: number) => {
    if (isEnding) return;
    isEnding = true;
    // Also where the log itself fails: nothing is left then that would end the program.
    ended().then(
      (isClosed) => process.exit(isClosed ? code : 1),
      () => process.exit(1),
    );
  };
  // Whoever keeps the program running is told by its exit code, and may start it again.
  process.on('uncaughtException', (error) => {
    log.error(errorData(error), 'something failed that nobody had in hand');
    end(1);
  });
  // Before it answers nothing has begun that could be finished. One listener for both: to change it would lose a signal
  // that comes at that moment.
  let isAnswering = false;
  const told = () => (isAnswering ? end(0) : process.exit(0));
  process.on('SIGTERM', told).on('SIGINT', told);
  try {
    const about = await start({ opened, isEnding: () => isEnding, end });
    isAnswering = true;
    log.info(about, 'answering');
  } catch (error) {
    await closed();
    throw error;
  }
}
