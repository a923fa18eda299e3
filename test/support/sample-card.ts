import type { Block, Card } from '../../src/card/card.ts';

/** A card with every kind of block and every awkward case of length; its figures are made up for the layout. */
export const SAMPLE_CARD: Card = {
  answer: 'A 32T ring fits and keeps most of your gears: lowest 45 % harder, highest 11 % slower.',
  readBack: 'Read: rings=36/22 cassette=11-36 wheel=57-622. Assumed: cadence 90, terrain rolling.',
  lines: ['Lowest gear: 0.89 instead of 0.61.', 'Chain: 106 pitches (53 pairs, 1346.2 mm) at 440 mm (17.3 in) stays.'],
  blocks: [
    { kind: 'caution', section: 'summary', level: 'stop', text: 'do not ride with a bolt missing.' },
    { kind: 'caution', section: 'summary', level: 'care', text: 'the figure printed on the part wins over this one.' },
    {
      kind: 'table',
      section: 'gears',
      title: 'Old against new',
      columns: ['Ring', 'Lowest', 'Highest', 'Range', 'Fit'],
      rows: [
        ['Now', '0.61', '3.27', '536 %', ''],
        ['32T', '0.89', '2.91', '327 %', 'fits'],
        ['104T', '−2.06', '10.12', '327 %', 'does not'],
      ],
    },
    { kind: 'text', section: 'gears', lines: ['Half the range of a double is what a single ring gives up.'] },
    {
      kind: 'checklist',
      section: 'torque',
      title: 'Tighten in this order',
      items: [
        { text: 'Ring bolts, steel: 12–14 N·m (106–124 lbf·in)', detail: 'in a star, in two passes' },
        { text: 'Check again after the first ride' },
      ],
    },
    { kind: 'caution', section: 'torque', level: 'care', text: 'a number in chat is not a sign-off.' },
    {
      kind: 'working',
      section: 'chain',
      steps: [
        {
          quantity: 'Chain that just wraps',
          formula: '2·C/p·cos α + (N + n)/2 + (N − n)·α/π',
          numbers: '2·440/12.7·cos 0.018 + (32 + 36)/2 + 4·0.018/π',
          result: '103.3 pitches',
          source: 'mechanism journal extract',
        },
      ],
    },
    {
      kind: 'actions',
      section: 'summary',
      title: 'To look at it another way',
      actions: [
        { label: '30T', setup: 'ring=30' },
        { label: 'a wider cassette', setup: 'newcassette=11-46' },
      ],
    },
    {
      kind: 'actions',
      section: 'summary',
      title: 'Say which',
      actions: [{ label: 'no shock', setup: 'suspension=none' }],
    },
    { kind: 'text', section: 'summary', title: 'Kept', lines: ['Ordinary parts stay: 轮组 and a naïve é.'] },
  ],
};

/** Every text of a card that a reader must find in what is shown. */
export function factsOf(card: Card): readonly string[] {
  return [card.answer, card.readBack, ...card.lines, ...card.blocks.flatMap(factsOfBlock)].filter(
    (fact) => fact !== '',
  );
}

function factsOfBlock(block: Block): readonly string[] {
  switch (block.kind) {
    case 'text':
      return block.title === undefined ? block.lines : [block.title, ...block.lines];
    case 'table':
      return [block.title, ...block.columns.slice(1), ...block.rows.flat()];
    case 'checklist':
      return [block.title, ...block.items.flatMap((item) => [item.text, item.detail ?? ''])];
    case 'caution':
      return [`${block.level === 'stop' ? 'STOP:' : 'Take care:'} ${block.text}`];
    case 'actions':
      return [block.title, ...block.actions.map((each) => `${each.setup} (${each.label})`)];
    case 'figure':
      return [block.title, block.alt];
    case 'working':
      return block.steps.flatMap((step) => [step.quantity, step.formula, step.numbers, step.result, step.source]);
  }
}
