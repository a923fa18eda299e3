import { setTimeout as wait } from 'node:timers/promises';

const LOOK_MS = 5;

/** Looks again and again until there is something, or the time is over. */
export async function until<Value>(look: () => Value | null, withinMs: number): Promise<Value | null> {
  for (const endMs = performance.now() + withinMs; ; await wait(LOOK_MS)) {
    const found = look();
    if (found !== null || performance.now() > endMs) return found;
  }
}
