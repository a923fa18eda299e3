/** Past this many changed letters two words have nothing to do with each other. */
const MOST_CHANGES = 3;
/** Two letters of five are a slip of the fingers, two of four another word. */
const CHANGED_SHARE = 0.4;
const MOST_NAMED = 3;

/** Words no longer than this are compared; a key or a command is never longer. */
const LONGEST = 24;

/** The words that come nearest to one that is not among them, by changed letters, the nearest first; at most three. */
export function nearest(word: string, words: readonly string[]): readonly string[] {
  if (word === '' || word.length > LONGEST) return [];
  const allowed = Math.min(MOST_CHANGES, Math.max(1, Math.floor(word.length * CHANGED_SHARE)));
  return words
    .map((each) => ({ each, changes: each.startsWith(word) && word.length > 1 ? 0.5 : changes(word, each) }))
    .filter((candidate) => candidate.changes <= allowed)
    .sort((one, other) => one.changes - other.changes)
    .slice(0, MOST_NAMED)
    .map((candidate) => candidate.each);
}

/** Letters to put in, take out or change to make one word of the other. */
function changes(one: string, other: string): number {
  let row = Array.from({ length: other.length + 1 }, (_, index) => index);
  for (let i = 1; i <= one.length; i += 1) {
    const next = [i];
    for (let j = 1; j <= other.length; j += 1) {
      const same = one[i - 1] === other[j - 1] ? 0 : 1;
      next.push(Math.min((row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1, (row[j - 1] ?? 0) + same));
    }
    row = next;
  }
  return row[other.length] ?? 0;
}
