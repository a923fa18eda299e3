import { PLAIN_TEXT, UNSAFE_EACH } from '../../src/inert.ts';

/** JSON whose every unsafe character is written as an escape: the same data, harmless when a terminal shows it. */
export function inertJson(value: unknown): string {
  const json = JSON.stringify(value);
  if (PLAIN_TEXT.test(json)) return json;
  return json.replace(UNSAFE_EACH, (character) => {
    let escaped = '';
    for (let index = 0; index < character.length; index += 1) {
      escaped += `\\u${character.charCodeAt(index).toString(16).padStart(4, '0')}`;
    }
    return escaped;
  });
}
