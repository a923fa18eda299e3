/** Where log lines go: constant text, and data beside it. pino fits as it is. */
export type Log = {
  readonly debug: (data: object, text: string) => void;
  readonly info: (data: object, text: string) => void;
  readonly warn: (data: object, text: string) => void;
  readonly error: (data: object, text: string) => void;
};

/** The same log with the same data in every line, such as what the line is about. */
export function logAbout(log: Log, about: object): Log {
  return {
    debug: (data, text) => log.debug({ ...about, ...data }, text),
    info: (data, text) => log.info({ ...about, ...data }, text),
    warn: (data, text) => log.warn({ ...about, ...data }, text),
    error: (data, text) => log.error({ ...about, ...data }, text),
  };
}

/**
 * What of an error may be logged: its name, its code, what kind of error is inside it, and where it came from. Not its
 * message, nor the request that failed: both may hold what a person typed, or a token. One place for every platform,
 * because this is where a leak would begin.
 */
export function errorData(error: unknown): object {
  if (!(error instanceof Error)) return { error: typeof error };
  const { code, status, original, cause } = error as {
    readonly [key in 'code' | 'status' | 'original' | 'cause']?: unknown;
  };
  const inner = original ?? cause;
  const frames = (error.stack ?? '').split('\n').filter((line) => /^\s+at /.test(line));
  return {
    error: error.constructor.name,
    ...(typeof code === 'string' || typeof code === 'number' ? { code } : {}),
    ...(typeof status === 'number' ? { status } : {}),
    ...(inner instanceof Error ? { inner: inner.constructor.name } : {}),
    at: frames.slice(0, 6).map((line) => line.trim()),
  };
}
