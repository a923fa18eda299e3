import type { Card } from '../../src/card/card.ts';

/** Every word of a card in reading order, one string a line, as a person who opens every section would read it. */
export function cardText(card: Card): string {
  const lines: string[] = [card.answer, card.readBack, ...card.lines];
  for (const block of card.blocks) {
    switch (block.kind) {
      case 'text':
        lines.push(block.title ?? '', ...block.lines);
        break;
      case 'table':
        lines.push(block.title, ...[block.columns, ...block.rows].map((row) => row.join(' | ')));
        break;
      case 'checklist':
        lines.push(block.title, ...block.items.map((item) => `${item.text}: ${item.detail ?? ''}`));
        break;
      case 'caution':
        lines.push(`${block.level}: ${block.text}`);
        break;
      case 'actions':
        lines.push(block.title, ...block.actions.map((action) => `${action.label} (${action.setup})`));
        break;
      case 'figure':
        lines.push(block.title, block.alt);
        break;
      case 'working':
        lines.push(...block.steps.map((s) => `${s.quantity}: ${s.formula}; ${s.numbers}; ${s.result}; ${s.source}`));
        break;
      default:
        block satisfies never;
    }
  }
  return lines.join('\n');
}
