const UNITS = 'zero one two three four five six seven eight nine'.split(' ');
const TEENS = 'ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen'.split(' ');
const TENS = 'twenty thirty forty fifty sixty seventy eighty ninety'.split(' ');

const NUMBERS = new Map<string, number>([
  ...UNITS.map((word, value) => [word, value] as const),
  ...TEENS.map((word, index) => [word, index + 10] as const),
  ...TENS.map((word, index) => [word, (index + 2) * 10] as const),
  ['fourty', 40],
]);

/** A number written as one or two words ("eleven", "thirty six"), and how many words it took. */
export function spelledAt(
  words: readonly string[],
  at: number,
): { readonly value: number; readonly words: number } | null {
  const value = NUMBERS.get(words[at] ?? '');
  if (value === undefined) return null;
  const more = value >= 20 ? NUMBERS.get(words[at + 1] ?? '') : undefined;
  return more !== undefined && more > 0 && more < 10 ? { value: value + more, words: 2 } : { value, words: 1 };
}
