import { performance } from 'node:perf_hooks';
import type { Desk } from '../../src/desk.ts';
import { commandName, questionOutcome } from '../../src/question-log.ts';
import { DeliveredBefore } from '../../src/records/delivery.ts';
import type { Metrics } from './metrics.ts';

/** A desk whose questions are counted and timed. */
export function watchedDesk(desk: Desk, { question }: Pick<Metrics, 'question'>): Desk {
  return {
    ask: async (asked) => {
      const fromMs = performance.now();
      const command = commandName(asked.request.command);
      const done = (outcome: string) => question(command, outcome, (performance.now() - fromMs) / 1000);
      try {
        const reply = await desk.ask(asked);
        done(questionOutcome(reply));
        return reply;
      } catch (error) {
        done(error instanceof DeliveredBefore ? 'repeated' : 'failed');
        throw error;
      }
    },
  };
}
