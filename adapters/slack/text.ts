import type { ActionsBlock, Block, Card, CautionBlock, FigureBlock, WorkingStep } from '../../src/card/card.ts';
import { type View, viewBlocks } from '../../src/card/views.ts';
import { type Names, shown } from './escape.ts';
import type { RichText, RichTextText } from './wire.ts';

/** A stretch of text in one style. */
type Run = { readonly text: string; readonly style?: 'bold' | 'italic' };

/** One line; it may be parted at blanks, never cut. */
export type Line = readonly Run[];

/** What stands on a page between two gaps: lines, or a figure that may become a picture. */
export type Piece =
  | { readonly kind: 'lines'; readonly lines: readonly Line[] }
  | { readonly kind: 'figure'; readonly block: FigureBlock };

function bold(text: string): Run {
  return { text, style: 'bold' };
}

function italic(text: string): Run {
  return { text, style: 'italic' };
}

function isStop(block: Block): block is CautionBlock {
  return block.kind === 'caution' && block.level === 'stop';
}

/** What a card is about: a bike's is opened section by section, what is kept and a topic are there at once. */
export type About = 'bike' | 'kept' | 'topic';

/**
 * The blocks of one view. The short card has every stop caution of the whole card, whichever section it stands in, before
 * all else.
 */
export function blocksOf(card: Card, view: View, about: About): readonly Block[] {
  const chosen = new Set<Block>(viewBlocks(card, view));
  if (view !== 'short') return [...chosen];
  const stops = card.blocks.filter(isStop);
  const calm = card.blocks.filter((block) => {
    if (isStop(block)) return false;
    if (chosen.has(block)) return true;
    return block.kind !== 'working' && (about === 'topic' || (about === 'kept' && block.section === 'kept'));
  });
  return [...stops, ...calm];
}

/** Everything on a card in reading order, for where no button could bring the rest. */
export function wholeCard(card: Card): readonly Block[] {
  const short = blocksOf(card, 'short', 'topic');
  return [...short, ...card.blocks.filter((block) => !short.includes(block))];
}

/** The pieces of one view: the stops, the few facts, the other blocks. */
export function piecesOf(card: Card, blocks: readonly Block[], facts: boolean, buttons: boolean): readonly Piece[] {
  const written = (some: readonly Block[]) => some.flatMap((block) => blockPieces(block, buttons));
  if (!facts) return written(blocks);
  const lines: Piece[] = card.lines.length === 0 ? [] : [{ kind: 'lines', lines: plainLines(card.lines) }];
  return [...written(blocks.filter(isStop)), ...lines, ...written(blocks.filter((block) => !isStop(block)))];
}

function blockPieces(block: Block, buttons: boolean): readonly Piece[] {
  if (block.kind === 'figure') return [{ kind: 'figure', block }];
  const lines = linesOf(block, buttons);
  return lines.length === 0 ? [] : [{ kind: 'lines', lines }];
}

function titled(title: string | undefined, lines: readonly Line[]): readonly Line[] {
  return title === undefined || title === '' ? lines : [[bold(title)], ...lines];
}

function linesOf(block: Exclude<Block, FigureBlock>, buttons: boolean): readonly Line[] {
  switch (block.kind) {
    case 'text':
      return titled(block.title, plainLines(block.lines.flatMap((text) => text.split('\n'))));
    case 'table':
      return titled(
        block.title,
        block.rows.map((row) => rowLine(block.columns, row)),
      );
    case 'checklist':
      return titled(
        block.title,
        block.items.flatMap(({ text, detail }) => [
          [{ text: `[ ] ${text}` }],
          ...(detail === undefined || detail === '' ? [] : [[italic(detail)]]),
        ]),
      );
    case 'caution':
      return [[bold(block.level === 'stop' ? 'STOP:' : 'Take care:'), { text: ` ${block.text}` }]];
    case 'actions':
      return titled(block.title, [[{ text: actionWords(block, buttons) }]]);
    case 'working':
      return block.steps.flatMap(workingLines);
  }
}

/** What can be told, in words: the buttons below say the same, and a card read aloud has no buttons. */
function actionWords({ actions }: ActionsBlock, buttons: boolean): string {
  return actions.map(({ label, setup }) => (buttons ? label : `${label} (${setup})`)).join(' · ');
}

function workingLines({ quantity, formula, numbers, result, source }: WorkingStep): readonly Line[] {
  return [
    [bold(quantity), { text: `: ${formula}` }],
    [{ text: `with your numbers: ${numbers}` }],
    [{ text: `= ${result}` }],
    [italic(`source: ${source}`)],
  ];
}

/** One row as one line: a phone is too narrow for columns. */
function rowLine(columns: readonly string[], row: readonly string[]): Line {
  const [name = '', ...cells] = row;
  const told = cells.flatMap((cell, index) => (cell === '' ? [] : [`${columns[index + 1] ?? ''} ${cell}`.trim()]));
  return told.length === 0 ? [bold(name)] : [bold(name), { text: ` — ${told.join(' · ')}` }];
}

/** The words of a figure, for where it cannot be shown as a picture. */
export function figureLines({ title, alt }: FigureBlock): readonly Line[] {
  return titled(title, plainLines([alt]));
}

/** Lines in no style of their own. */
export function plainLines(texts: readonly string[]): readonly Line[] {
  return texts.map((text) => [{ text }]);
}

/** Lines as one block. */
export function richText(lines: readonly Line[], names: Names): RichText {
  const runs: RichTextText[] = [];
  for (const [index, line] of lines.entries()) {
    const before = index === 0 ? '' : '\n';
    for (const [at, { text, style }] of line.entries()) {
      const whole = `${at === 0 ? before : ''}${shown(text, names)}`;
      if (whole === '') continue;
      runs.push({ type: 'text', text: whole, ...(style === undefined ? {} : { style: { [style]: true } }) });
    }
  }
  return { type: 'rich_text', elements: [{ type: 'rich_text_section', elements: runs }] };
}

/** The first line of a card. */
export function headLine(answer: string): readonly Line[] {
  return [[bold(answer)]];
}

/** A line longer than a page holds, parted at blanks; a word longer than that, wherever it must. */
export function lineParts(line: Line, most: number): readonly Line[] {
  const length = line.reduce((sum, { text }) => sum + text.length, 0);
  if (length <= most) return [line];
  const parts: Line[] = [];
  let part: Run[] = [];
  let room = most;
  for (const run of line) {
    let rest = run.text;
    while (rest.length > room) {
      const blank = rest.lastIndexOf(' ', room - 1);
      const at = blank > 0 ? blank + 1 : room - (/[\ud800-\udbff]$/.test(rest.slice(0, room)) ? 1 : 0);
      part.push({ ...run, text: rest.slice(0, at) });
      rest = rest.slice(at);
      parts.push(part);
      part = [];
      room = most;
    }
    if (rest !== '') part.push({ ...run, text: rest });
    room -= rest.length;
    if (room <= 0) {
      parts.push(part);
      part = [];
      room = most;
    }
  }
  return part.length === 0 ? parts : [...parts, part];
}
