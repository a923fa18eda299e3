import { generateKeyPairSync, sign } from 'node:crypto';
import { verifyKey } from 'discord-interactions';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isSigned, readPublicKey } from '../../adapters/discord/signature.ts';

/** RFC 8032, section 7.1: public key, message and signature of the tests 1, 2, 3 and SHA(abc). */
const RFC_8032 = [
  {
    name: 'TEST 1',
    key: 'd75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a',
    message: '',
    signature:
      'e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b',
  },
  {
    name: 'TEST 2',
    key: '3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c',
    message: '72',
    signature:
      '92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00',
  },
  {
    name: 'TEST 3',
    key: 'fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025',
    message: 'af82',
    signature:
      '6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a',
  },
  {
    name: 'TEST SHA(abc)',
    key: 'ec172b93ad5e563bf4932c70e1245034c35467ef2efd4d64ebf819683467e2bf',
    message:
      'ddaf35a193617abacc417349ae20413112e6fa4e89a97ea20a9eeee64b55d39a2192992a274fc1a836ba3c23a3feebbd454d4423643ce80e2a9ac94fa54ca49f',
    signature:
      'dc2a4459e7369633a52b1bf277839a00201009a3efbf3ecb69bea2186c26b58909351fc9ac90b3ecfdfbc7c66431e0303dca179c138ac17ad9bef1177331a704',
  },
] as const;

describe('signatures printed in RFC 8032', () => {
  it.each(RFC_8032)('$name is one, and none with a bit changed', ({ key, message, signature }) => {
    const publicKey = readPublicKey(key);
    const body = Buffer.from(message, 'hex');
    expect(isSigned(publicKey, '', body, signature)).toBe(true);
    const flipped = Buffer.from(signature, 'hex');
    flipped[9] = (flipped[9] ?? 0) ^ 1;
    expect(isSigned(publicKey, '', body, flipped.toString('hex'))).toBe(false);
    expect(isSigned(publicKey, '', Buffer.concat([body, Buffer.from([0])]), signature)).toBe(false);
  });
});

describe('a signature', () => {
  const { publicKey, privateKey } = generateKeyPairSync('ed25519');
  const hex = publicKey.export({ format: 'der', type: 'spki' }).subarray(-32).toString('hex');
  const key = readPublicKey(hex);
  const signed = (timestamp: string, body: Uint8Array) =>
    sign(null, Buffer.concat([Buffer.from(timestamp), body]), privateKey).toString('hex');

  it('is judged as another implementation judges it, whatever is signed', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 0, max: 2_000_000_000 }).map(String),
        fc.uint8Array({ maxLength: 300 }),
        fc.constantFrom('none', 'body', 'time', 'signature', 'short'),
        async (timestamp, body, change) => {
          const good = signed(timestamp, body);
          const told = change === 'body' ? Uint8Array.of(...body, 1) : body;
          const when = change === 'time' ? `${timestamp}1` : timestamp;
          const which = change === 'signature' ? `${good.slice(0, -1)}${good.endsWith('0') ? '1' : '0'}` : good;
          const shorter = change === 'short' ? which.slice(0, -2) : which;
          const mine = isSigned(key, when, told, shorter);
          expect(mine).toBe(change === 'none');
          if (change !== 'short') expect(mine).toBe(await verifyKey(told, shorter, when, hex));
        },
      ),
      { numRuns: 60 },
    );
  });

  it.each(['', 'zz', 'a'.repeat(127), `${'a'.repeat(127)}g`, 'a'.repeat(130)])(
    'that is none, %j, is refused',
    (text) => {
      expect(isSigned(key, '1', new Uint8Array(), text)).toBe(false);
    },
  );
});
