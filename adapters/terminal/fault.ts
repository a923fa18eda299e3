import { createHash } from 'node:crypto';
import { ConfigError } from '../../src/config-error.ts';

/** Eight characters that are the same for the same fault, so that two reports of it can be told to be one. */
export function faultId(error: unknown): string {
  const told = error instanceof Error ? (error.stack ?? error.message) : String(error);
  return createHash('sha256').update(told).digest('hex').slice(0, 8);
}

/** The plain apology for what only we can have caused; what is wrong with the set-up is told to whoever sits here. */
export function faultLine(error: unknown): string {
  if (error instanceof ConfigError) return `${error.message}.`;
  return `Something went wrong on our side (id ${faultId(error)}). It was not your wording; nothing was changed.`;
}
