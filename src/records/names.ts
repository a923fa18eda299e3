import { LIMITS } from './limits.ts';

/**
 * What two names must share to be the same name: letter case, compatible forms (full-width letters), runs of blanks and
 * invisible characters do not tell names apart. Empty when nothing visible is left.
 */
export function nameKey(name: string): string {
  return name
    .normalize('NFKC')
    .replace(/[\p{Cf}\p{Cc}\p{Cs}]/gu, (each) => (/\s/.test(each) ? ' ' : ''))
    .toLowerCase()
    .replace(/\s+/gu, ' ')
    .trim();
}

/**
 * A topic or alias as it is kept: lower-case words of letters and digits joined by hyphens ("32 vs 30!" is
 * "32-vs-30"). Null when no letter or digit is left. It may still be too long: see {@link LIMITS}.
 */
export function topicOf(text: string): string | null {
  const topic = foldWords(text).join('-');
  return topic === '' ? null : topic;
}

/** The words of a text, lower-case and without accents, in order. */
function foldWords(text: string): string[] {
  const folded = text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase();
  return folded.match(/[\p{L}\p{N}]+/gu) ?? [];
}

/** Past this a word is a paste accident; both the index and the question cut at it, so that they still meet. */
const LONGEST_WORD = 40;

/**
 * The words of a text as they are indexed and looked for, in order: folded, and with a plural "s" taken off, so that
 * "bolts" finds "bolt". The same on every engine, which then only has to match whole words and beginnings.
 */
export function searchWords(text: string): string[] {
  return foldWords(text).map((word) => {
    const cut = word.slice(0, LONGEST_WORD);
    return cut.length > 3 && cut.endsWith('s') && !cut.endsWith('ss') ? cut.slice(0, -1) : cut;
  });
}

/** The pairs of letters of each word of a name, and its first letter: what a misspelt name still shares with the right one. */
export function letterPairs(name: string): string[] {
  const pairs = new Set<string>();
  for (const word of foldWords(name.slice(0, LIMITS.topic))) {
    const letters = [...word];
    pairs.add(letters[0] ?? '');
    for (let at = 1; at < letters.length; at++) pairs.add(`${letters[at - 1]}${letters[at]}`);
  }
  return [...pairs];
}

/** The names nearest to what somebody wrote, best first: at most a third of the letters may differ. */
export function nearMisses(wanted: string, names: readonly string[], most: number): string[] {
  const target = topicOf(wanted) ?? '';
  const scored = names
    .map((name) => ({ name, distance: editDistance(target, name) }))
    .filter(({ name, distance }) => distance * 3 <= Math.max(target.length, name.length) || startsAlike(target, name));
  scored.sort((a, b) => a.distance - b.distance || (a.name < b.name ? -1 : a.name > b.name ? 1 : 0));
  return scored.slice(0, most).map(({ name }) => name);
}

/** Three letters are enough to mean a beginning. */
function startsAlike(wanted: string, name: string): boolean {
  return wanted.length >= 3 && name.startsWith(wanted);
}

/** How many letters must be put in, taken out, changed, or swapped with their neighbour to make one name the other. */
export function editDistance(from: string, to: string): number {
  const a = [...from];
  const b = [...to];
  let before: number[] = [];
  let last = b.map((_, at) => at);
  last.push(b.length);
  for (let row = 1; row <= a.length; row++) {
    const next = [row];
    for (let column = 1; column <= b.length; column++) {
      const changed = (last[column - 1] ?? 0) + (a[row - 1] === b[column - 1] ? 0 : 1);
      let least = Math.min((last[column] ?? 0) + 1, (next[column - 1] ?? 0) + 1, changed);
      if (row > 1 && column > 1 && a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1]) {
        least = Math.min(least, (before[column - 2] ?? 0) + 1);
      }
      next.push(least);
    }
    before = last;
    last = next;
  }
  return last[b.length] ?? 0;
}
