import { ConfigError } from '../../src/config-error.ts';

/**
 * Runs a program from its first line. What keeps it from beginning is told in one line: a fault in its settings in
 * words, anything else by its code at most, because a message may hold what nobody should read.
 */
export async function begin(name: string, run: () => Promise<void>): Promise<void> {
  try {
    await run();
  } catch (error) {
    process.stderr.write(`${name}: ${told(error)}\n`);
    process.exitCode = 1;
  }
}

function told(error: unknown): string {
  if (!(error instanceof Error)) return 'it could not begin';
  if (error instanceof ConfigError) return error.message;
  return `it could not begin${'code' in error ? ` (${String(error.code)})` : ''}`;
}
