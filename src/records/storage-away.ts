/**
 * Why storage cannot be used just now.
 *
 * - `full`: no room left to write.
 * - `read-only`: it can be read and not written.
 * - `busy`: somebody else held it for longer than a person should wait.
 * - `gone`: the file or the server cannot be reached.
 * - `damaged`: what is there is not a database that can be read.
 * - `tables`: it can be reached, and its tables are not (yet) those that this program knows.
 */
export type AwayCode = 'full' | 'read-only' | 'busy' | 'gone' | 'damaged' | 'tables';

/**
 * Thrown by every function of the records port when storage is away. Nothing was half done: the work was undone, or
 * (`certain` false) the connection broke at the very moment of saving and it may or may not have been kept, so look
 * before doing it again.
 */
export class StorageAway extends Error {
  override readonly name = 'StorageAway';
  readonly code: AwayCode;
  readonly certain: boolean;

  constructor(code: AwayCode, options: { readonly cause?: unknown; readonly certain?: boolean } = {}) {
    super(`storage is away: ${code}`, { cause: options.cause });
    this.code = code;
    this.certain = options.certain ?? true;
  }
}
