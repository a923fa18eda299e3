import { type Block, type Card, SECTION_TITLES, type Section, type WorkingStep } from '../../src/card/card.ts';
import { viewTitle } from '../../src/card/views.ts';
import { defined, headed, paragraph } from './layout.ts';

/** The answer, what was read, and the few facts that matter most, one sentence a line. */
export function spokenHead(card: Card, width: number | null): string[] {
  const told = [card.answer, card.readBack, ...card.lines].filter((text) => text !== '');
  return told.flatMap((text) => paragraph(text, width));
}

/** Blocks as sentences: no columns, no marks for the eye, each heading a word and a colon. */
export function spokenBlocks(blocks: readonly Block[], width: number | null): string[] {
  const lines: string[] = [];
  let section: Section = 'summary';
  for (const block of blocks) {
    if (block.section !== section) lines.push('', `${SECTION_TITLES[block.section]}:`);
    for (const sentence of sentences(block)) lines.push(...paragraph(sentence, width));
    section = block.section;
  }
  return lines;
}

function sentences(block: Block): readonly string[] {
  switch (block.kind) {
    case 'text':
      return block.title === undefined ? block.lines : [headed(block.title), ...block.lines];
    case 'table':
      return [headed(block.title), ...block.rows.map((row) => rowSentence(row, block.columns))];
    case 'checklist':
      return [headed(block.title), ...block.items.map((item, index) => itemSentence(item, index, block.items.length))];
    case 'caution':
      return [`${block.level === 'stop' ? 'STOP:' : 'Take care:'} ${block.text}`];
    case 'actions':
      return [`${headed(block.title)} ${block.actions.map((each) => `${each.setup} (${each.label})`).join('; ')}.`];
    case 'figure':
      return [`${headed(block.title)} ${ended(block.alt)}`];
    case 'working':
      return [headed(viewTitle('why')), ...block.steps.flatMap(stepSentences)];
  }
}

function stepSentences(step: WorkingStep): readonly string[] {
  return [
    ended(defined(step)),
    `With your numbers: ${ended(step.numbers)}`,
    `Result: ${ended(step.result)}`,
    `Source: ${ended(step.source)}`,
  ];
}

/** "32T: lowest 0.89, highest 2.91." */
function rowSentence(row: readonly string[], columns: readonly string[]): string {
  const [name = '', ...cells] = row;
  const told = cells.flatMap((cell, index) =>
    cell === '' ? [] : [`${uncapped(columns[index + 1] ?? '')} ${cell}`.trim()],
  );
  return told.length === 0 ? ended(name) : `${name}: ${ended(told.join(', '))}`;
}

function itemSentence(item: { readonly text: string; readonly detail?: string }, index: number, count: number): string {
  const text = `${index + 1} of ${count}: ${ended(item.text)}`;
  return item.detail === undefined ? text : `${text} ${ended(item.detail)}`;
}

/** A column's name inside a sentence: "Lowest" loses its capital, "BCD" and "N·m" keep theirs. */
function uncapped(name: string): string {
  return /^\p{Lu}\p{Ll}/u.test(name) ? name.charAt(0).toLowerCase() + name.slice(1) : name;
}

function ended(text: string): string {
  return /[.?!:]$/.test(text) ? text : `${text}.`;
}
