/**
 * Where a write is found again in the store.
 *
 * - `once`: it makes a record of its own, known by its key.
 * - `latest`: it replaces what stood there; what stood there before is found where the database wrote it down.
 * - `receipt`: an answer that was given, found by its question and by the code that was shown under it.
 */
export type Trace =
  | { readonly kind: 'once'; readonly key: string }
  | { readonly kind: 'latest'; readonly register: string; readonly value: string }
  | { readonly kind: 'receipt'; readonly place: string; readonly setup: string };

/** What the person was shown: that it is kept, that it is not, or nothing. */
export type Told = 'acknowledged' | 'refused' | 'unanswered';

/** One thing somebody asked for, with what they were told about it. */
export type Entry = {
  /** By which way it came in. */
  readonly front: string;
  readonly what: string;
  readonly trace: Trace;
  readonly told: Told;
  readonly askedMs: number;
  /** When they saw it, or gave up. */
  readonly untilMs: number;
  /** The code under the answer, where one was shown. */
  readonly code: string | null;
  /** To how many processes it was delivered. */
  readonly processes: number;
  /** How its delivery came again, and the beginning of what was shown, for whoever looks into a loss. */
  readonly came?: string;
};

/** What is in the store, read by one who knows nothing of what was asked. */
export type Found = {
  /** The key of every record that stands for one deed; one that is there twice stands here twice. */
  readonly keys: readonly string[];
  readonly latest: ReadonlyMap<string, string>;
  /** Every value that ever stood in a register, in the order in which they were saved. */
  readonly history: ReadonlyMap<string, readonly string[]>;
  /** The question behind each receipt, by place and code. */
  readonly receipts: ReadonlyMap<string, string>;
  /** The numbers of everything that counts 1, 2, 3 and so on. */
  readonly counts: ReadonlyMap<string, readonly number[]>;
};

export type Audit = {
  readonly lost: readonly string[];
  readonly doubled: readonly string[];
  /** What is there and was never asked for. */
  readonly unasked: readonly string[];
  readonly gaps: readonly string[];
};

/** Compares what people were told with what is there. */
export function audit(entries: readonly Entry[], found: Found): Audit {
  const lost: string[] = [];
  const doubled: string[] = [];
  const unasked: string[] = [];
  const counted = countsOf(found.keys);
  const questions = countsOf([...found.receipts].map(([key, setup]) => `${placeOf(key)} ${setup}`));
  const registers = new Map<string, Entry[]>();
  const asked = new Set<string>();
  for (const entry of entries) {
    const { trace, told, code, processes } = entry;
    switch (trace.kind) {
      case 'once': {
        asked.add(trace.key);
        const count = counted.get(trace.key) ?? 0;
        if (told === 'acknowledged' && count === 0) lost.push(trace.key);
        if (count > 1) doubled.push(`${trace.key} (${count} times)`);
        break;
      }
      case 'receipt': {
        const question = `${trace.place} ${trace.setup}`;
        asked.add(question);
        if (code !== null && found.receipts.get(`${trace.place} ${code}`) !== trace.setup) {
          lost.push(`receipt ${trace.place} ${code}`);
        }
        // A question that reaches two processes is answered, and its answer kept, by each of them.
        const count = questions.get(question) ?? 0;
        if (count > processes) doubled.push(`receipt of ${question} (${count} times)`);
        break;
      }
      case 'latest':
        registers.set(trace.register, [...(registers.get(trace.register) ?? []), entry]);
    }
  }
  for (const [register, writes] of registers) {
    const history = found.history.get(register) ?? [];
    const wrong = wrongIn(writes, history, found.latest.get(register));
    lost.push(...wrong.lost.map((each) => `${register}: ${each}`));
    doubled.push(...wrong.doubled.map((each) => `${register}: ${each}`));
    unasked.push(...wrong.unasked.map((each) => `${register}: ${each}`));
  }
  return {
    lost,
    doubled,
    unasked: [
      ...unasked,
      ...[...counted.keys()].filter((key) => !asked.has(key)),
      ...[...questions.keys()].filter((question) => !asked.has(question)).map((question) => `receipt of ${question}`),
      ...[...new Set([...found.latest.keys(), ...found.history.keys()])].filter((register) => !registers.has(register)),
    ],
    gaps: [...found.counts].filter(([, numbers]) => numbers.some((each, at) => each !== at + 1)).map(([name]) => name),
  };
}

type Wrong = Pick<Audit, 'lost' | 'doubled' | 'unasked'>;

/**
 * What is wrong with the values that stood in a register one after the other. Each was asked for, and stood there once at
 * most. One that was acknowledged stood there, and before everything that was asked for after its acknowledgement. One
 * that nobody acknowledged may have come at any time after it was asked for, because its delivery may come again.
 */
function wrongIn(writes: readonly Entry[], history: readonly string[], value: string | undefined): Wrong {
  const lost: string[] = [];
  const savedBy = ({ trace }: Entry) => (trace.kind === 'latest' ? trace.value : '');
  const asked = new Set(writes.map(savedBy));
  const at = new Map(history.map((each, index) => [each, index]));
  if (value !== history.at(-1))
    lost.push(
      `${value ?? 'nothing'} stands there, and not ${history.at(-1) ?? 'nothing'}: ${around(writes, writes.length)}`,
    );
  for (const [which, write] of writes.entries()) {
    if (write.told !== 'acknowledged') continue;
    const stood = at.get(savedBy(write));
    if (stood === undefined) lost.push(`${savedBy(write)} never stood there: ${around(writes, which)}`);
    const before = writes.find(
      (each) => each.askedMs > write.untilMs && (at.get(savedBy(each)) ?? history.length) < (stood ?? 0),
    );
    if (before !== undefined)
      lost.push(`${savedBy(write)} took the place of ${savedBy(before)}: ${around(writes, which)}`);
  }
  const counts = countsOf(history);
  return {
    lost,
    doubled: [...counts].filter(([, count]) => count > 1).map(([each, count]) => `${each} (${count} times)`),
    unasked: [...counts.keys()].filter((each) => !asked.has(each)),
  };
}

/** How many writes of a register are named on each side of the one that is wrong. */
const NAMED = 2;

function around(writes: readonly Entry[], which: number): string {
  const named = writes
    .slice(Math.max(0, which - NAMED), which + NAMED + 1)
    .map(({ trace, told, came }) =>
      [trace.kind === 'latest' ? trace.value : '', told, ...(came === undefined ? [] : [came])].join(' '),
    );
  return named.join(', ');
}

function countsOf(keys: readonly string[]): Map<string, number> {
  const counts = new Map<string, number>();
  for (const key of keys) counts.set(key, (counts.get(key) ?? 0) + 1);
  return counts;
}

function placeOf(key: string): string {
  return key.slice(0, key.lastIndexOf(' '));
}
