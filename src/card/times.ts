/** "2026-11-25", in UTC. */
export function day(ms: number): string {
  return new Date(ms).toISOString().slice(0, 10);
}

/** "2026-11-25 09:41 UTC". */
export function minute(ms: number): string {
  return `${new Date(ms).toISOString().slice(0, 16).replace('T', ' ')} UTC`;
}
