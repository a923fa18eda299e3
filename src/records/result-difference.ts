/** A value as JSON whose keys are in order, so that equal values give equal bytes. */
export function canonicalJson(value: unknown): string {
  return JSON.stringify(value, (_key, each: unknown) => {
    if (typeof each !== 'object' || each === null || Array.isArray(each)) return each;
    return Object.fromEntries(Object.entries(each).sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0)));
  });
}

/** One place where two results differ; undefined where one of them has nothing. */
export type ResultChange = { readonly path: string; readonly was: unknown; readonly is: unknown };

/**
 * Where a result differs from the one that was pinned, in order of path ("chain.targetPitches", "rings[2].cost").
 * Numbers that agree to nine digits are the same: the last bits of a float are not a change of rules.
 */
export function resultChanges(pinned: string, now: string): readonly ResultChange[] {
  if (pinned === now) return [];
  const changes: ResultChange[] = [];
  compare('', JSON.parse(pinned), JSON.parse(now), changes);
  return changes;
}

function compare(path: string, was: unknown, is: unknown, changes: ResultChange[]): void {
  if (Object.is(was, is)) return;
  if (typeof was === 'number' && typeof is === 'number') {
    if (Math.abs(was - is) > 1e-9 * Math.max(Math.abs(was), Math.abs(is))) changes.push({ path, was, is });
  } else if (Array.isArray(was) && Array.isArray(is)) {
    for (let at = 0; at < Math.max(was.length, is.length); at++) compare(`${path}[${at}]`, was[at], is[at], changes);
  } else if (isObject(was) && isObject(is)) {
    for (const key of [...new Set([...Object.keys(was), ...Object.keys(is)])].sort()) {
      compare(path === '' ? key : `${path}.${key}`, ownValue(was, key), ownValue(is, key), changes);
    }
  } else {
    changes.push({ path, was, is });
  }
}

function ownValue(object: Readonly<Record<string, unknown>>, key: string): unknown {
  return Object.hasOwn(object, key) ? object[key] : undefined;
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
