import { createPublicKey, type KeyObject, verify } from 'node:crypto';

/** What stands before the 32 bytes of an Ed25519 public key in its usual wrapping (RFC 8410, section 10.1). */
const WRAPPING = '302a300506032b6570032100';

/** The application's public key, read once: reading it takes as long as checking a signature. */
export function readPublicKey(hex: string): KeyObject {
  return createPublicKey({ key: Buffer.from(WRAPPING + hex, 'hex'), format: 'der', type: 'spki' });
}

/** Whether the platform signed these very bytes (Ed25519, RFC 8032). */
export function isSigned(key: KeyObject, timestamp: string, body: Uint8Array, signature: string): boolean {
  if (!/^[0-9a-f]{128}$/i.test(signature)) return false;
  return verify(null, Buffer.concat([Buffer.from(timestamp), body]), key, Buffer.from(signature, 'hex'));
}
