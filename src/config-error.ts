/**
 * The set-up is wrong, and trying again will not help. The message is for whoever runs the program, and never shows the
 * value of a setting.
 */
export class ConfigError extends Error {
  override readonly name = 'ConfigError';
  readonly code: string;

  constructor(code: string, message: string, options?: { readonly cause?: unknown }) {
    super(message, options);
    this.code = code;
  }
}
