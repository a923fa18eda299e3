import { setTimeout as wait } from 'node:timers/promises';

/** Waits until something holds, for what arrives in its own time. */
export async function until(holds: () => boolean, withinMs = 8000): Promise<void> {
  const end = Date.now() + withinMs;
  while (!holds()) {
    if (Date.now() > end) throw new Error('it never came to hold');
    await wait(10);
  }
}
