import type { Answer } from '../commands/answer.ts';
import type { RingOption } from '../solve/ring-options.ts';

/** Another ring to look at, as a list of choices shows it; `setup` is what to add to the line. */
export type RingChoice = {
  readonly teeth: number;
  readonly label: string;
  readonly detail: string;
  readonly setup: string;
};

/** Every ring of an answer that could be fitted, smallest first, with what it gives up against today. */
export function ringChoices({ rings = [] }: Answer): readonly RingChoice[] {
  return rings.filter(({ fit }) => fit !== 'no').map(choice);
}

function choice({ teeth, fit, recommended, lowestChangePct, highestChangePct }: RingOption): RingChoice {
  const mark = recommended ? ' (suits best)' : fit === 'check' ? ' (check first)' : '';
  const low = changeWords(lowestChangePct, 'harder', 'easier');
  const high = changeWords(highestChangePct, 'faster', 'slower');
  return {
    teeth,
    label: `${teeth}T${mark}`,
    detail: `Lowest gear ${low}, top gear ${high}`,
    setup: `ring=${teeth}`,
  };
}

function changeWords(changePct: number, more: string, less: string): string {
  const rounded = Math.round(Math.abs(changePct));
  return rounded === 0 ? 'as now' : `${rounded} % ${changePct > 0 ? more : less}`;
}
