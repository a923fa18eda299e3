import { Counter, collectDefaultMetrics, Gauge, Histogram, Registry } from 'prom-client';
import type { Happening } from '../../src/notice.ts';
import type { Sources } from './sources.ts';

/**
 * Seconds. A question about a bike takes a fraction of a thousandth; one that is kept takes storage's time. 1.8 and 2
 * are where Discord's and Slack's adapters stop waiting and announce the answer, 3 where both platforms give up on the
 * first answer ("Receiving and Responding"; "Handling user interaction").
 */
const ANSWER_SECONDS = [0.0005, 0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 1.8, 2, 3, 10];

/** Seconds. 2, 2.5 and 3 are how long the records wait for a connection or a lock, a statement, and the whole of it. */
const STORE_SECONDS = [0.0005, 0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2, 2.5, 3];

export type Metrics = {
  readonly question: (command: string, outcome: string, seconds: number) => void;
  readonly happened: (happening: Happening) => void;
  readonly picture: (outcome: string) => void;
  readonly store: (operation: string, seconds: number) => void;
  readonly storeError: (operation: string, code: string) => void;
  /** All of it in the text format, and what that is called. */
  readonly text: () => Promise<string>;
  readonly contentType: string;
};

/**
 * The counts of one program. Labels are from closed lists: commands, outcomes, codes and operations that are known here,
 * never anything a person typed, and never who or where they are.
 */
export function openMetrics(platform: string, sources: () => Sources, isReady: () => boolean): Metrics {
  const registry = new Registry();
  const registers = [registry];
  collectDefaultMetrics({ register: registry });

  const answers = new Counter({
    name: 'ringwright_answers_total',
    help: 'Questions that the desk answered, by what came of them; away: not answered because storage is away.',
    labelNames: ['platform', 'command', 'outcome'],
    registers,
  });
  const answerSeconds = new Histogram({
    name: 'ringwright_answer_seconds',
    help: 'How long the desk took for a question, storage included, pictures and the way to the platform not.',
    labelNames: ['platform', 'command'],
    buckets: ANSWER_SECONDS,
    registers,
  });
  const interactions = new Counter({
    name: 'ringwright_interactions_total',
    help: 'What the platform sent, by what became of it at the first answer; one that fails later also counts as failed.',
    labelNames: ['platform', 'kind', 'outcome'],
    registers,
  });
  const pictures = new Counter({
    name: 'ringwright_pictures_total',
    help: 'Pictures asked for, by outcome; drawn: or remembered, busy: too many waited, so that the words went alone.',
    labelNames: ['outcome'],
    registers,
  });
  const storeSeconds = new Histogram({
    name: 'ringwright_store_seconds',
    help: 'How long an operation of the records took, also one that failed.',
    labelNames: ['operation'],
    buckets: STORE_SECONDS,
    registers,
  });
  const storeErrors = new Counter({
    name: 'ringwright_store_errors_total',
    help: 'Operations of the records that failed, by why storage is away; other: a mistake of ours.',
    labelNames: ['operation', 'code'],
    registers,
  });
  const faults = new Counter({
    name: 'ringwright_platform_faults_total',
    help: 'What the platform refused, by its code or status, each try counted; unreachable: no response at all.',
    labelNames: ['platform', 'code'],
    registers,
  });
  new Gauge({
    name: 'ringwright_under_way',
    help: 'What the platform sent and is being answered.',
    labelNames: ['platform'],
    registers,
    collect() {
      this.set({ platform }, sources().underWay?.() ?? 0);
    },
  });
  new Gauge({
    name: 'ringwright_picture_queue_depth',
    help: 'Pictures that wait to be drawn.',
    registers,
    collect() {
      this.set(sources().picturesWaiting?.() ?? 0);
    },
  });
  new Gauge({
    name: 'ringwright_shard_up',
    help: 'Whether a shard of this program has its connection to the gateway.',
    labelNames: ['shard'],
    registers,
    collect() {
      for (const [shard, isUp] of sources().shards?.() ?? []) this.set({ shard: String(shard) }, isUp ? 1 : 0);
    },
  });
  new Gauge({
    name: 'ringwright_ready',
    help: 'Whether the program should be sent questions, as /readyz says.',
    registers,
    collect() {
      this.set(isReady() ? 1 : 0);
    },
  });

  return {
    question: (command, outcome, seconds) => {
      answers.inc({ platform, command, outcome });
      answerSeconds.observe({ platform, command }, seconds);
    },
    happened: (happening) => {
      switch (happening.kind) {
        case 'payload':
          return interactions.inc({ platform, kind: happening.of, outcome: happening.outcome });
        case 'fault':
          return faults.inc({ platform, code: happening.code });
      }
    },
    picture: (outcome) => pictures.inc({ outcome }),
    store: (operation, seconds) => storeSeconds.observe({ operation }, seconds),
    storeError: (operation, code) => storeErrors.inc({ operation, code }),
    text: () => registry.metrics(),
    contentType: registry.contentType,
  };
}
