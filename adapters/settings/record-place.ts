import { type Where, whereKept } from '../../src/records/where.ts';
import { type Env, type ReadSecret, withSecrets } from './secret-files.ts';

export type RecordPlace =
  | { readonly kind: 'place'; readonly where: Where }
  | { readonly kind: 'fault'; readonly words: string };

/** Where the records are, for a program that reads no other setting. It loads no package: the terminal starts with it. */
export function recordPlace(env: Env, readSecret: ReadSecret): RecordPlace {
  const { env: whole, faults } = withSecrets(env, ['DATABASE_URL'], readSecret);
  const [fault] = faults;
  return fault === undefined ? { kind: 'place', where: whereKept(whole) } : { kind: 'fault', words: fault.words };
}
