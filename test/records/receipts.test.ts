import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CODE_BYTES, readReceiptCode, receiptCode } from '../../src/records/receipts.ts';

describe('a receipt code', () => {
  it('writes five bytes as eight letters, five bits each', () => {
    // 0xFF 0x00 … is 11111 11100 00000 00000 00000 00000 00000 00000.
    expect(receiptCode(Uint8Array.of(0xff, 0, 0, 0, 0))).toBe('ZW000000');
    expect(receiptCode(Uint8Array.of(0, 0, 0, 0, 1))).toBe('00000001');
  });

  it('is not made from too few bytes', () => {
    expect(receiptCode(new Uint8Array(CODE_BYTES - 1))).toBeNull();
  });

  it('is read back as it was made, and differs for different bytes', () => {
    const bytes = fc.uint8Array({ minLength: CODE_BYTES, maxLength: CODE_BYTES });
    fc.assert(
      fc.property(bytes, bytes, (one, other) => {
        const code = receiptCode(one) ?? '';
        expect(readReceiptCode(code)).toBe(code);
        expect(receiptCode(other) === code).toBe(one.toString() === other.toString());
      }),
    );
  });

  it('is read as people write it', () => {
    expect(readReceiptCode('#zw00-oo0l')).toBe('ZW000001');
    expect(readReceiptCode(' zw 000 00i ')).toBe('ZW000001');
  });

  it('is refused when it cannot be one', () => {
    for (const text of ['', 'ZW00000', 'ZW0000000', 'ZW00000U', 'ZW00000é', '########']) {
      expect(readReceiptCode(text)).toBeNull();
    }
  });
});
