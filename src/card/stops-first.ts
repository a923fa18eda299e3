import type { Block, CautionBlock } from './card.ts';

/** Stop-riding and do-not-cut cautions before everything else, the rest in its order. */
export function stopsFirst(blocks: readonly Block[]): readonly Block[] {
  const stops: CautionBlock[] = [];
  const rest: Block[] = [];
  for (const block of blocks) {
    if (block.kind === 'caution' && block.level === 'stop') stops.push({ ...block, section: 'summary' });
    else rest.push(block);
  }
  return [...stops, ...rest];
}
