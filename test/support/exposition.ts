/** A sample of the text format: its name, its labels and its value. */
export type Sample = {
  readonly name: string;
  readonly labels: Readonly<Record<string, string>>;
  readonly value: number;
};

export type Exposition = {
  readonly families: ReadonlyMap<string, { readonly type: string; readonly help: string }>;
  readonly samples: readonly Sample[];
  /** The value of the one sample with that name and (at least) those labels; 0 where there is none. */
  readonly value: (name: string, labels?: Readonly<Record<string, string>>) => number;
  /** The sum over every sample with that name and those labels. */
  readonly sum: (name: string, labels?: Readonly<Record<string, string>>) => number;
};

const NAME = '[a-zA-Z_:][a-zA-Z0-9_:]*';
const LABEL = '([a-zA-Z_][a-zA-Z0-9_]*)="((?:[^"\\\\\\n]|\\\\["\\\\n])*)"';
const COMMENT = new RegExp(`^# (HELP|TYPE) (${NAME}) (.+)$`);
const SAMPLE = new RegExp(`^(${NAME})(?:\\{(${LABEL}(?:,${LABEL})*)?\\})? (\\S+)$`);
const TYPES: readonly string[] = ['counter', 'gauge', 'histogram', 'summary', 'untyped'];

/**
 * Reads the text format strictly, as its page describes it ("Exposition formats", Text-based format): every line is a
 * comment, a sample or empty, nothing is said twice, and a histogram's buckets rise to its count.
 */
export function readExposition(text: string): Exposition {
  if (!text.endsWith('\n')) throw new Error('the last line is not ended');
  const families = new Map<string, { type: string; help: string }>();
  const samples: Sample[] = [];
  const seen = new Set<string>();
  for (const line of text.split('\n')) {
    if (line === '') continue;
    const comment = COMMENT.exec(line);
    const sample = SAMPLE.exec(line);
    if (comment !== null) {
      const [, what, name = '', rest = ''] = comment;
      const family = families.get(name) ?? { type: '', help: '' };
      if ((what === 'TYPE' ? family.type : family.help) !== '') throw new Error(`said twice: ${line}`);
      if (what === 'TYPE' && !TYPES.includes(rest)) throw new Error(`no type: ${line}`);
      families.set(name, what === 'TYPE' ? { ...family, type: rest } : { ...family, help: rest });
    } else if (sample !== null) {
      const [, name = '', told = ''] = sample;
      const key = `${name}{${told}}`;
      if (seen.has(key)) throw new Error(`said twice: ${line}`);
      seen.add(key);
      const labels = Object.fromEntries(
        [...told.matchAll(new RegExp(LABEL, 'g'))].map(([, label = '', value = '']) => [label, value]),
      );
      samples.push({ name, labels, value: numberOf(sample.at(-1) ?? '') });
    } else throw new Error(`neither a comment nor a sample: ${line}`);
  }
  for (const { name } of samples) {
    const family = families.get(name) ?? families.get(name.replace(/_(bucket|sum|count)$/, ''));
    if (family === undefined || family.type === '' || family.help === '') throw new Error(`of no family: ${name}`);
  }
  for (const [name, { type }] of families) if (type === 'histogram') checkHistogram(name, samples);
  const matching = (name: string, labels: Readonly<Record<string, string>>) =>
    samples.filter(
      (each) => each.name === name && Object.entries(labels).every(([label, value]) => each.labels[label] === value),
    );
  return {
    families,
    samples,
    value: (name, labels = {}) => {
      const found = matching(name, labels);
      if (found.length > 1) throw new Error(`${found.length} samples of ${name}`);
      return found[0]?.value ?? 0;
    },
    sum: (name, labels = {}) => matching(name, labels).reduce((sum, { value }) => sum + value, 0),
  };
}

function numberOf(text: string): number {
  if (text === 'Nan' || text === 'NaN') return Number.NaN;
  if (text === '+Inf') return Number.POSITIVE_INFINITY;
  if (!/^-?\d+(\.\d+)?(e[-+]?\d+)?$/.test(text)) throw new Error(`no number: ${text}`);
  return Number(text);
}

function checkHistogram(name: string, samples: readonly Sample[]): void {
  const series = new Map<string, { le: number; value: number }[]>();
  const keyOf = ({ le: _, ...labels }: Sample['labels']) => JSON.stringify(Object.entries(labels).sort());
  for (const { name: each, labels, value } of samples) {
    if (each !== `${name}_bucket`) continue;
    const key = keyOf(labels);
    series.set(key, [...(series.get(key) ?? []), { le: numberOf(labels.le ?? ''), value }]);
  }
  for (const [key, buckets] of series) {
    const count = samples.find((each) => each.name === `${name}_count` && keyOf(each.labels) === key)?.value;
    const rises = buckets.every(({ le, value }, at) => {
      const before = buckets[at - 1];
      return before === undefined || (before.le < le && before.value <= value);
    });
    const last = buckets.at(-1);
    if (!rises || last?.le !== Number.POSITIVE_INFINITY || last.value !== count) {
      throw new Error(`the buckets of ${name} ${key} do not rise to its count`);
    }
  }
}
