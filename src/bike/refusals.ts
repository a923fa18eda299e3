import { KEYS, type Key, type KeyName } from './keys.ts';
import { shown } from './normalise.ts';
import type { Refusal } from './reading.ts';

/** The one calm refusal of a value: what was read, what is wrong with it, what is allowed and why, and an example. */
export function refuseValue(name: KeyName, read: string, problem: string): Refusal {
  const key: Key = KEYS[name];
  const said = read === '' ? 'nothing was given' : `"${shown(read)}" ${problem}`;
  return { field: name, message: `${key.label}: ${said}.`, allowed: allowed(key), example: key.example };
}

function allowed(key: Key): string {
  if (key.low !== undefined && key.high !== undefined) {
    return `${key.low} to ${key.high}${key.unit === undefined ? '' : ` ${key.unit}`}: ${key.because}`;
  }
  if (key.choices !== undefined) return `${key.choices.join(', ')}: ${key.because}`;
  return key.because;
}
