import type { TandemPart } from '../commands/answer.ts';
import type { Block, CautionBlock, TextBlock } from './card.ts';

const CAUTIONS: readonly string[] = [
  'Two riders pull on one ring, its bolts and one drive chain, with up to twice the force of one: parts made for tandems only, and look at bolts and wear sooner.',
  'The timing chain between the two cranks is not in these figures: leave its length, its two rings and its tension as they are. A slack one that jumps puts both riders out of step.',
  'Crossover cranks: the left arms carry the timing rings and have pedal threads of their own. Arms never change sides or places.',
];

/** What two riders on one bicycle have to know before the work. */
export function tandemCautions(): readonly string[] {
  return CAUTIONS;
}

const ANSWERED: TextBlock = {
  kind: 'text',
  section: 'work',
  title: 'Tandem: what is answered, and what is not',
  lines: [
    'Answered: gears, drive chain, bolt circle, chainline, weight and torque of the drive at the rear crank.',
    'Not answered: timing chain and rings, crossover arms, the eccentric, drag brakes.',
    'Stays run from the rear crank axle to the wheel axle; the chain is the drive chain.',
    'The single ring goes on the right arm of the rear crank.',
    'Timing chain on the right too? Its ring keeps its place there; only the other rings come off.',
    "The riders' weight and power count together: rider=150kg power=350W.",
  ],
};

/** The cautions of a tandem, for every card that leads to work on it. */
export function tandemBlocks(part: TandemPart | null): readonly Block[] {
  return (part?.cautions ?? []).map(
    (text): CautionBlock => ({ kind: 'caution', section: 'summary', level: 'care', text }),
  );
}

/** What of a tandem is answered here, and what is not. */
export function tandemNotes(part: TandemPart | null): readonly Block[] {
  return part === null ? [] : [ANSWERED];
}
