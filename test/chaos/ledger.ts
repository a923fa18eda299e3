/**
 * Where a write is found again in the store.
 *
 * - `once`: it makes a record of its own, known by its key.
 * - `latest`: it replaces what stood there, so that only the last one can be found.
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

/**
 * A write whose outcome nobody saw may still arrive a little later than the one after it: a server that was held up saves
 * what it had been sent. Longer than any wait of ours plus the longest time a server is held.
 */
const LATE_MS = 20_000;

/** Compares what people were told with what is there. */
export function audit(entries: readonly Entry[], found: Found): Audit {
  const lost: string[] = [];
  const doubled: string[] = [];
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
    const value = found.latest.get(register);
    if (!mayStand(writes, value)) lost.push(`${register}: ${value ?? 'nothing'} stands there after ${lastOf(writes)}`);
  }
  return {
    lost,
    doubled,
    unasked: [
      ...[...counted.keys()].filter((key) => !asked.has(key)),
      ...[...questions.keys()].filter((question) => !asked.has(question)).map((question) => `receipt of ${question}`),
      ...[...found.latest.keys()].filter((register) => !registers.has(register)),
    ],
    gaps: [...found.counts].filter(([, numbers]) => numbers.some((each, at) => each !== at + 1)).map(([name]) => name),
  };
}

/** Whether a value can be what the writes of one person, one after the other, have left. */
function mayStand(writes: readonly Entry[], value: string | undefined): boolean {
  const last = writes.findLast(({ told }) => told === 'acknowledged');
  if (last === undefined && value === undefined) return true;
  const fromMs = (last?.askedMs ?? 0) - LATE_MS;
  return writes.some(
    (each) =>
      each.trace.kind === 'latest' &&
      each.trace.value === value &&
      (each === last || (each.told !== 'acknowledged' && each.askedMs >= fromMs)),
  );
}

/** How many writes of a register are named where it holds the wrong one. */
const NAMED = 5;

function lastOf(writes: readonly Entry[]): string {
  const named = writes
    .slice(-NAMED)
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
