import { ConfigError } from '../../src/config-error.ts';
import type { Where } from '../../src/records/where.ts';
import { recordPlace } from '../settings/record-place.ts';
import type { Env, ReadSecret } from '../settings/secret-files.ts';

/**
 * Where the records are, for the programs that look after them.
 *
 * @throws ConfigError `records-settings` when the file with the address of the server cannot be had
 */
export function readWhere(env: Env, readSecret: ReadSecret): Where {
  const place = recordPlace(env, readSecret);
  if (place.kind === 'fault') throw new ConfigError('records-settings', place.words);
  return place.where;
}
