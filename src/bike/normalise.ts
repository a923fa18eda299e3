/** Characters that stand for one the reader knows. Spaces around a replacement keep it apart from its neighbours. */
const STANDS_FOR = new Map<string, string>([
  ...spread('‐‑‒–—―−﹘﹣⁃➖', '-'),
  ...spread('×✕✖⨯╳⨉✗', 'x'),
  ...spread('·•・∙⋅‧⸱▪◦\n\r', ' ; '),
  ...spread('⁄∕÷', '/'),
  ...spread('″“”„‟〃˝', '"'),
  ...spread('′‘’ʼ‛ʹ', "'"),
  ...spread('→⇒➔➜➝⟶➡⮕➙', ' to '),
  ...spread('،、﹐', ','),
  ...spread('〜∼≈≃', '~'),
  ...spread('º˚', '°'),
  ['٫', '.'],
  ['٬', ','],
  ['٪', '%'],
  ['∶', ':'],
  ['…', '...'],
  ['¼', ' 1/4'],
  ['½', ' 1/2'],
  ['¾', ' 3/4'],
  ['⅛', ' 1/8'],
  ['⅜', ' 3/8'],
  ['⅝', ' 5/8'],
  ['⅞', ' 7/8'],
]);

const PLAIN = /^[ -~]*$/;
const DIGIT = /^\p{Nd}$/u;
/** Invisible characters: joiners, direction marks, tags, fillers and halves of surrogate pairs. */
const UNSEEN = /^(?:\p{Cf}|\p{Cs}|\p{Default_Ignorable_Code_Point})$/u;
const BLANK = /^[\p{Cc}\p{Zs}\p{Zl}\p{Zp}]$/u;

/** The longest piece of a person's text that is ever repeated to them. */
const SHOWN_CHARACTERS = 40;

/**
 * Folds the ways of writing one thing into one: any script's digits, dashes, crosses, quotes, full-width forms and
 * capitals. A new line separates like a comma; other control characters become spaces; invisible ones are removed, so they can neither hide words nor come back.
 */
export function normalise(text: string): string {
  if (PLAIN.test(text)) return text.toLowerCase();
  let folded = '';
  for (const character of text) folded += fold(character, folded);
  return folded.toLowerCase();
}

function fold(character: string, before: string): string {
  const code = character.codePointAt(0) ?? 0;
  if (code >= 0x20 && code < 0x7f) return character;
  if (code >= 0xff01 && code <= 0xff5e) {
    const half = String.fromCharCode(code - 0xfee0);
    return STANDS_FOR.get(half) ?? half;
  }
  const stands = STANDS_FOR.get(character);
  if (stands !== undefined) return stands;
  if (BLANK.test(character)) return ' ';
  if (UNSEEN.test(character)) return '';
  if (DIGIT.test(character)) return String(digitValue(code));
  // The Cyrillic letter looks like the cross and sits on the same key.
  if ((code === 0x445 || code === 0x425) && /\d$/.test(before.slice(-1))) return 'x';
  return character;
}

/** Every script's ten digits stand in a row, except the mathematical ones: five rows without a gap. */
function digitValue(code: number): number {
  if (code >= 0x1d7ce && code <= 0x1d7ff) return (code - 0x1d7ce) % 10;
  let value = 0;
  while (value < 9 && DIGIT.test(String.fromCodePoint(code - value - 1))) value += 1;
  return value;
}

/** A piece of a person's normalised text as it may be shown to them: at most 40 characters. */
export function shown(text: string): string {
  if (text.length <= SHOWN_CHARACTERS) return text;
  const characters = [...text];
  return characters.length <= SHOWN_CHARACTERS ? text : `${characters.slice(0, SHOWN_CHARACTERS - 1).join('')}…`;
}

function spread(characters: string, stands: string): readonly (readonly [string, string])[] {
  return [...characters].map((character) => [character, stands] as const);
}
