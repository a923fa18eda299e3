/** The set-up is wrong, and trying again will not help. The message names settings and never shows their values. */
export class ConfigError extends Error {
  override readonly name = 'ConfigError';
  readonly code: string;

  constructor(code: string, message: string) {
    super(message);
    this.code = code;
  }
}
