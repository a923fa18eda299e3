type Step = string | number;

/** What stands at a path in data whose shape nobody has promised; undefined where the path ends before. */
export function at(value: unknown, ...path: readonly Step[]): unknown {
  let found = value;
  for (const step of path) {
    if (typeof found !== 'object' || found === null) return undefined;
    found = (found as Readonly<Record<Step, unknown>>)[step];
  }
  return found;
}

export function listAt(value: unknown, ...path: readonly Step[]): readonly unknown[] {
  const found = at(value, ...path);
  return Array.isArray(found) ? found : [];
}

/** A text, or a number as text; empty where there is neither. */
export function textAt(value: unknown, ...path: readonly Step[]): string {
  const found = at(value, ...path);
  return typeof found === 'string' || typeof found === 'number' ? String(found) : '';
}

export function recordAt(value: unknown, ...path: readonly Step[]): Readonly<Record<string, unknown>> {
  const found = at(value, ...path);
  return typeof found === 'object' && found !== null && !Array.isArray(found)
    ? (found as Readonly<Record<string, unknown>>)
    : {};
}

/** Every text inside, wherever it stands. */
export function textsIn(value: unknown): readonly string[] {
  if (typeof value === 'string') return [value];
  if (typeof value !== 'object' || value === null) return [];
  return Object.values(value).flatMap(textsIn);
}

/** The same data with something else at a path; `undefined` takes away what stands there. */
export function changed(value: unknown, path: readonly Step[], to: unknown): unknown {
  const [step, ...rest] = path;
  if (step === undefined) return to;
  if (Array.isArray(value)) return value.map((each, index) => (index === step ? changed(each, rest, to) : each));
  const whole = recordAt(value);
  const inner = changed(whole[step], rest, to);
  if (inner !== undefined) return { ...whole, [step]: inner };
  return Object.fromEntries(Object.entries(whole).filter(([name]) => name !== step));
}
