import type { Over } from './limits.ts';
import type { Author, Place, Who } from './place.ts';

/** Digits and letters of the code, without I, L, O and U, which are mistaken for others (Crockford's base 32). */
const LETTERS = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';

/** Eight letters of five bits: among a million receipts of one place, a new code is free but once in a million. */
const CODE_LENGTH = 8;

/** How many random bytes a code is made from. */
export const CODE_BYTES = 5;

/** The code for five random bytes, upper-case. Null for fewer bytes, which would make codes that can be guessed. */
export function receiptCode(random: Uint8Array): string | null {
  if (random.length < CODE_BYTES) return null;
  let code = '';
  let bits = 0;
  let held = 0;
  for (const byte of random.subarray(0, CODE_BYTES)) {
    held = (held << 8) | byte;
    bits += 8;
    while (bits >= 5) {
      bits -= 5;
      code += LETTERS[(held >> bits) & 31];
      held &= (1 << bits) - 1;
    }
  }
  return code;
}

/** The code somebody typed, in any letter case, with or without "#", with O for 0 and I or L for 1; null if it is none. */
export function readReceiptCode(text: string): string | null {
  const code = text
    .replace(/[\s#-]/g, '')
    .toUpperCase()
    .replaceAll('O', '0')
    .replace(/[IL]/g, '1');
  if (code.length !== CODE_LENGTH) return null;
  for (const letter of code) if (!LETTERS.includes(letter)) return null;
  return code;
}

/** How many of a person's receipts are named at once: what somebody still remembers asking. */
export const LATEST_RECEIPTS = 10;

/** A receipt by what was asked, without the answer. */
export type ReceiptHead = Pick<Receipt, 'code' | 'command' | 'setup'> & { readonly atMs: number };

/** An answer that was given, with all that is needed to show it again byte for byte or to ask it anew. */
export type Receipt = {
  readonly code: string;
  readonly command: string;
  readonly setup: string;
  readonly options: Readonly<Record<string, string>>;
  readonly rules: string;
  /** The machine-readable answer as given, kept as text so that it comes back byte for byte. */
  readonly answer: string;
  /** The card as given, as JSON text. */
  readonly card: string;
};

export type KeptReceipt = Receipt & { readonly owner: Author; readonly atMs: number };

export type Receipts = {
  /** `taken`: the code is in use here; make another. `not-a-code`: it was not made by {@link receiptCode}. */
  readonly keep: (
    who: Who,
    receipt: Receipt,
    atMs: number,
  ) => Promise<{ readonly kind: 'kept' } | { readonly kind: 'taken' } | { readonly kind: 'not-a-code' } | Over>;
  /** By code as typed; null when there is none in this place. */
  readonly read: (place: Place, code: string) => Promise<KeptReceipt | null>;
  /** The asker's own, the newest first, {@link LATEST_RECEIPTS} at most. */
  readonly latest: (who: Who) => Promise<readonly ReceiptHead[]>;
};
