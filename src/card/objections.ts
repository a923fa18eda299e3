import type { Objection } from '../commands/answer.ts';
import type { ObjectionKind } from '../solve/objections.ts';
import type { Block, TextBlock } from './card.ts';

/** One reason not to convert, in a sentence; sizes are null where nobody told them. */
export function objectionWords(
  kind: ObjectionKind,
  maxRingTeeth: number | null,
  smallestRingTeeth: number | null,
): string {
  switch (kind) {
    case 'riveted':
      return 'Riveted rings do not come apart: this bike needs another crank first.';
    case 'drive-unit':
      return 'Motor at the cranks: a ring fits only if the drive unit maker lists it. Ask before you buy.';
    case 'no-room':
      return `The frame has room for ${maxRingTeeth ?? '?'}T, the crank takes ${smallestRingTeeth ?? '?'}T at least: no ring fits both.`;
    case 'few-sprockets-in-hills':
      return 'Hills on nine sprockets or fewer: with luggage or on a tandem, keep your rings.';
    case 'small-wheel':
      return "Small wheel: for many folding and children's bikes no parts exist. Find the ring before you undo a bolt.";
  }
}

/** The cases nobody can see from here. */
export const BETTER_LEFT_ALONE: TextBlock = {
  kind: 'text',
  section: 'work',
  title: 'Better left alone',
  lines: [
    'Riveted rings: a new crank comes first.',
    'Loaded touring or a tandem in hills on nine sprockets or fewer.',
    'A frame without room for the ring and 3 mm beside it.',
    "A folding or child's bike that no parts exist for.",
    "A pedal-assist drive unit: its maker's parts only.",
    'A rental bike, or one whose warranty a change would end.',
  ],
};

/** What speaks against converting this bike. */
export function objectionBlocks(objections: readonly Objection[]): readonly Block[] {
  return objections.map((each) => ({ kind: 'caution', section: 'summary', level: 'care', text: each.reason }));
}
