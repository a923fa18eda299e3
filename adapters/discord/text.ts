import type { Block, Card } from '../../src/card/card.ts';
import { type View, viewBlocks } from '../../src/card/views.ts';
import { escaped } from './escape.ts';

/** How text is written: which names of people are real, which figures are drawn, and whether buttons carry the actions. */
export type Writing = {
  readonly people: ReadonlySet<string>;
  /** Alternative texts of the figures that go along as pictures. */
  readonly drawn: ReadonlySet<string>;
  /** Without buttons the words of an action stand beside its label. */
  readonly buttons: boolean;
};

/** Which blocks the short card has: those of no section, what is kept as well, or all of them. */
export type Short = 'summary' | 'kept' | 'all';

/**
 * The blocks of one view. The short card has every stop caution of the whole card, whichever section it stands in, before
 * all else.
 */
export function blocksOf(card: Card, view: View, short: Short): readonly Block[] {
  const chosen = viewBlocks(card, view);
  if (view !== 'short') return chosen;
  const isStop = (block: Block) => block.kind === 'caution' && block.level === 'stop';
  const isOwn = (block: Block) => short === 'all' || (short === 'kept' && block.section === 'kept');
  const rest = card.blocks.filter((block) => !isStop(block) && (chosen.includes(block) || isOwn(block)));
  return [...card.blocks.filter(isStop), ...rest];
}

/** The paragraphs of one view, each one line or several, escaped: what was read, the stops, the few facts, the blocks. */
export function paragraphs(card: Card, blocks: readonly Block[], view: View, writing: Writing): readonly string[] {
  const written = blocks.map((block) => ({ block, text: blockText(block, writing) })).filter(({ text }) => text !== '');
  if (view !== 'short') return written.map(({ text }) => text);
  const isStop = (block: Block) => block.kind === 'caution' && block.level === 'stop';
  return [
    quiet(card.readBack, writing),
    ...written.filter(({ block }) => isStop(block)).map(({ text }) => text),
    card.lines.map((line) => escaped(line, writing.people)).join('\n'),
    ...written.filter(({ block }) => !isStop(block)).map(({ text }) => text),
  ].filter((text) => text !== '');
}

/** What was read is there to be checked, and stands back behind the answer. */
function quiet(text: string, { people }: Writing): string {
  return text === '' ? '' : `-# ${escaped(text, people)}`;
}

function blockText(block: Block, writing: Writing): string {
  const words = (text: string) => escaped(text, writing.people);
  const titled = (title: string | undefined, lines: readonly string[]) =>
    [...(title === undefined || title === '' ? [] : [`**${words(title)}**`]), ...lines].join('\n');
  switch (block.kind) {
    case 'text':
      return titled(block.title, block.lines.map(words));
    case 'table':
      return titled(
        block.title,
        block.rows.map((row) => rowText(block.columns, row, words)),
      );
    case 'checklist':
      return titled(
        block.title,
        block.items.map(
          ({ text, detail }) => `[ ] ${words(text)}${detail === undefined ? '' : `\n-# ${words(detail)}`}`,
        ),
      );
    case 'caution':
      return `**${block.level === 'stop' ? 'STOP:' : 'Take care:'}** ${words(block.text)}`;
    case 'actions': {
      const actions = block.actions.map(({ label, setup }) =>
        writing.buttons ? words(label) : `${words(label)} (${words(setup)})`,
      );
      return titled(block.title, [actions.join(' · ')]);
    }
    case 'working':
      return block.steps
        .map(({ quantity, formula, numbers, result, source }) =>
          [
            `**${words(quantity)}**: ${words(formula)}`,
            `with your numbers: ${words(numbers)}`,
            `= ${words(result)}`,
            `-# source: ${words(source)}`,
          ].join('\n'),
        )
        .join('\n\n');
    case 'figure':
      return titled(block.title, [writing.drawn.has(block.alt) ? 'See the picture.' : words(block.alt)]);
  }
}

/** One row as one paragraph: a phone is too narrow for columns. */
function rowText(columns: readonly string[], row: readonly string[], words: (text: string) => string): string {
  const [name = '', ...cells] = row;
  const told = cells.flatMap((cell, index) =>
    cell === '' ? [] : [`${words(columns[index + 1] ?? '')} ${words(cell)}`],
  );
  return `**${words(name)}** — ${told.join(' · ')}`;
}

/** Paragraphs on as many pages as they need: none is parted that fits on one, and not a letter is lost. */
export function pagesOf(texts: readonly string[], most: number): readonly string[] {
  return packed(
    texts.flatMap((text) => pieces(text, most)),
    '\n\n',
    most,
  );
}

/** A paragraph longer than a page, parted at the ends of its lines, or within a line that is longer than a page. */
function pieces(text: string, most: number): readonly string[] {
  if (text.length <= most) return [text];
  const lines = text.split('\n').flatMap((line) => lineParts(line, most));
  return packed(lines, '\n', most);
}

/** Parts, none longer than `most`, joined while they stay within it. */
function packed(parts: readonly string[], between: string, most: number): readonly string[] {
  const found: string[] = [];
  let whole = '';
  for (const part of parts) {
    const joined = whole === '' ? part : `${whole}${between}${part}`;
    if (joined.length <= most) {
      whole = joined;
      continue;
    }
    found.push(whole);
    whole = part;
  }
  return whole === '' ? found : [...found, whole];
}

function lineParts(line: string, most: number): readonly string[] {
  const parts: string[] = [];
  let rest = line;
  while (rest.length > most) {
    const blank = rest.lastIndexOf(' ', most - 1);
    // Never between a backslash and what it makes harmless, nor inside a character of two units.
    const at = blank > 0 ? blank + 1 : most - (/[\\\ud800-\udbff]$/.test(rest.slice(0, most)) ? 1 : 0);
    parts.push(rest.slice(0, at).trimEnd());
    rest = rest.slice(at);
  }
  return [...parts, rest];
}
