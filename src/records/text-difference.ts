/** A stretch of text that stayed, went or came. */
export type Stretch = { readonly kind: 'same' | 'removed' | 'added'; readonly text: string };

/**
 * What changed between two texts, word by word: `same` and `removed` joined are the old text, `same` and `added` joined
 * the new one. The longest common run of words is kept, and what went stands before what came in its stead.
 */
export function textDifference(old: string, now: string): readonly Stretch[] {
  const a = pieces(old);
  const b = pieces(now);
  let start = 0;
  while (start < a.length && start < b.length && a[start] === b[start]) start++;
  let end = 0;
  while (end < a.length - start && end < b.length - start && a[a.length - 1 - end] === b[b.length - 1 - end]) end++;

  const stretches: { kind: Stretch['kind']; text: string }[] = [];
  const add = (kind: Stretch['kind'], text: string) => {
    const last = stretches.at(-1);
    if (text === '') return;
    if (last?.kind === kind) last.text += text;
    else stretches.push({ kind, text });
  };
  add('same', a.slice(0, start).join(''));
  middle(a.slice(start, a.length - end), b.slice(start, b.length - end), add);
  add('same', a.slice(a.length - end).join(''));
  return stretches;
}

/** Words, runs of blanks, line ends and other signs, each a piece; joined they are the text again. */
function pieces(text: string): string[] {
  return text.match(/[\p{L}\p{N}\p{M}]+|\n|[^\S\n]+|[^\p{L}\p{N}\p{M}\s]/gu) ?? [];
}

/** The longest common subsequence, by the table of lengths from each pair of places to the end. */
function middle(a: readonly string[], b: readonly string[], add: (kind: Stretch['kind'], text: string) => void): void {
  const width = b.length + 1;
  const lengths = new Uint16Array((a.length + 1) * width);
  const length = (i: number, j: number) => lengths[i * width + j] ?? 0;
  for (let i = a.length - 1; i >= 0; i--) {
    for (let j = b.length - 1; j >= 0; j--) {
      lengths[i * width + j] = a[i] === b[j] ? length(i + 1, j + 1) + 1 : Math.max(length(i + 1, j), length(i, j + 1));
    }
  }
  let removed = '';
  let added = '';
  const flush = () => {
    add('removed', removed);
    add('added', added);
    removed = '';
    added = '';
  };
  let i = 0;
  let j = 0;
  while (i < a.length || j < b.length) {
    if (i < a.length && j < b.length && a[i] === b[j]) {
      flush();
      add('same', a[i] ?? '');
      i++;
      j++;
    } else if (i < a.length && (j === b.length || length(i + 1, j) >= length(i, j + 1))) {
      removed += a[i++] ?? '';
    } else {
      added += b[j++] ?? '';
    }
  }
  flush();
}
