import { styleText } from 'node:util';
import {
  type ActionsBlock,
  type Block,
  type Card,
  type CautionBlock,
  type ChecklistBlock,
  SECTION_TITLES,
  type Section,
  type TableBlock,
  type WorkingStep,
} from '../../src/card/card.ts';
import { viewTitle } from '../../src/card/views.ts';
import { inert } from '../../src/inert.ts';
import { columnsOf } from './columns.ts';
import { defined, firm, headed, paragraph } from './layout.ts';

type Screen = { readonly width: number; readonly colour: boolean };
type Style = Parameters<typeof styleText>[0];

const INDENT = '  ';
const COLUMN_GAP = '  ';

/** The answer, what was read, and the few facts that matter most. */
export function screenHead(card: Card, screen: Screen): string[] {
  const lines = styled(paragraph(card.answer, screen.width), 'bold', screen);
  if (card.readBack !== '') lines.push('', ...styled(paragraph(card.readBack, screen.width), 'dim', screen));
  if (card.lines.length > 0) lines.push('');
  for (const line of card.lines) lines.push(...paragraph(line, screen.width, '', INDENT));
  return lines;
}

/** Blocks in their order, each section under its heading, a blank line before each block. */
export function screenBlocks(blocks: readonly Block[], screen: Screen): string[] {
  const lines: string[] = [];
  let section: Section = 'summary';
  let before: Block | undefined;
  for (const block of blocks) {
    const together = before?.kind === 'caution' && block.kind === 'caution';
    if (block.section !== section) lines.push('', sectionRule(block.section, screen));
    else if (!together) lines.push('');
    lines.push(...screenBlock(block, screen));
    section = block.section;
    before = block;
  }
  return lines;
}

/** A heading with a rule to the edge. What comes back to the summary is set off by the rule alone. */
function sectionRule(section: Section, screen: Screen): string {
  if (section === 'summary') return '─'.repeat(screen.width);
  const title = SECTION_TITLES[section];
  const [bold = title] = styled([title], 'bold', screen);
  return `${bold} ${'─'.repeat(screen.width - columnsOf(title) - 1)}`;
}

function screenBlock(block: Block, screen: Screen): string[] {
  switch (block.kind) {
    case 'text': {
      if (block.title === undefined) return block.lines.flatMap((line) => paragraph(line, screen.width, '', INDENT));
      return [
        ...titled(block.title, screen),
        ...block.lines.flatMap((line) => paragraph(line, screen.width, INDENT, '    ')),
      ];
    }
    case 'table':
      return table(block, screen);
    case 'checklist':
      return checklist(block, screen);
    case 'caution':
      return caution(block, screen);
    case 'actions':
      return actions(block, screen);
    case 'figure':
      // The card says in its tables and lines what the picture shows; who reads by ear gets the description instead.
      return paragraph(`Picture: ${block.title} (--pictures DIR writes it)`, screen.width, '', INDENT);
    case 'working':
      return [...titled(viewTitle('why'), screen), ...block.steps.flatMap((step) => working(step, screen))];
  }
}

function table(block: TableBlock, screen: Screen): string[] {
  const rows = [block.columns, ...block.rows].map((row) => row.map(inert));
  const widths = block.columns.map((_, column) => Math.max(...rows.map((row) => columnsOf(row[column] ?? ''))));
  const total = widths.reduce((sum, width) => sum + width, INDENT.length + COLUMN_GAP.length * (widths.length - 1));
  const title = titled(block.title, screen);
  if (total > screen.width) return [...title, ...block.rows.flatMap((row) => rowParagraph(row, block.columns, screen))];
  const numeric = block.columns.map(
    (_, column) => column > 0 && block.rows.every((row) => isFigure(row[column] ?? '')),
  );
  const lines = rows.map((row) => {
    const cells = row.map((cell, column) => padded(cell, widths[column] ?? 0, numeric[column] ?? false));
    return (INDENT + cells.join(COLUMN_GAP)).trimEnd();
  });
  const [columns = '', ...rest] = lines;
  return [...title, ...styled([columns], 'bold', screen), ...rest];
}

/** One row of a table that is too wide for the screen: "32T — Lowest 0.89 · Highest 2.91". */
function rowParagraph(row: readonly string[], columns: readonly string[], screen: Screen): string[] {
  const [name = '', ...cells] = row;
  const told = cells
    .map((cell, index) => firm(`${columns[index + 1] ?? ''} ${cell}`.trim(), screen.width))
    .filter((_, index) => cells[index] !== '');
  return paragraph(told.length === 0 ? name : `${name} — ${told.join(' · ')}`, screen.width, INDENT, INDENT + INDENT);
}

function padded(cell: string, width: number, right: boolean): string {
  const blanks = ' '.repeat(width - columnsOf(cell));
  return right ? blanks + cell : cell + blanks;
}

function isFigure(cell: string): boolean {
  return cell === '' || /^[-−+±–—~]?\d|^[–—-]$/.test(cell);
}

function checklist(block: ChecklistBlock, screen: Screen): string[] {
  const items = block.items.flatMap((item) => {
    const lines = paragraph(item.text, screen.width, `${INDENT}[ ] `);
    return item.detail === undefined ? lines : [...lines, ...paragraph(item.detail, screen.width, `${INDENT}    `)];
  });
  return [...titled(block.title, screen), ...items];
}

function caution(block: CautionBlock, screen: Screen): string[] {
  return block.level === 'stop'
    ? styled(paragraph(`STOP: ${block.text}`, screen.width, '', INDENT), ['bold', 'red'], screen)
    : styled(paragraph(`Take care: ${block.text}`, screen.width, '', INDENT), 'yellow', screen);
}

function actions(block: ActionsBlock, screen: Screen): string[] {
  const [only, ...more] = block.actions;
  if (only !== undefined && more.length === 0) {
    return paragraph(`${headed(block.title)} ${only.setup} (${only.label})`, screen.width, '', INDENT);
  }
  const lines = block.actions.flatMap((each) =>
    paragraph(`${each.setup} (${each.label})`, screen.width, INDENT, '    '),
  );
  return [...titled(headed(block.title), screen), ...lines];
}

function working(step: WorkingStep, screen: Screen): string[] {
  return [
    ...paragraph(defined(step), screen.width, INDENT, '    '),
    ...paragraph(`with your numbers: ${step.numbers}`, screen.width, '    ', '      '),
    ...paragraph(`= ${step.result}`, screen.width, '    ', '      '),
    ...paragraph(`source: ${step.source}`, screen.width, '    ', '      '),
  ];
}

function titled(title: string, screen: Screen): string[] {
  return styled(paragraph(title, screen.width), 'bold', screen);
}

function styled(lines: readonly string[], style: Style, screen: Screen): string[] {
  if (!screen.colour) return [...lines];
  return lines.map((line) => styleText(style, line, { validateStream: false }));
}
