import { CIRCLE_RULES } from '../tables/bolt-circles.ts';
import type { Bike } from './bike.ts';
import { KEYS } from './keys.ts';
import type { Question } from './reading.ts';
import { settling } from './value-text.ts';

/** What of a bike cannot be true together, as questions; each choice settles its own. The gravest first. */
export function conflictsOf(bike: Bike): readonly Question[] {
  const asks: Question[] = [];
  const { cassette, speeds, stayMm, longestMm, chainPitches } = bike;

  const count = cassette?.sprockets?.length;
  if (cassette !== undefined && count !== undefined && speeds !== undefined && count !== speeds) {
    asks.push({
      field: 'speeds',
      question: `The cassette list has ${count} sprockets, but ${speeds} are told. Which is right?`,
      choices: [
        { label: `The list, ${count}`, setup: settling('cassette', cassette) },
        { label: `${speeds} sprockets`, setup: settling('speeds', speeds) },
      ],
    });
  }
  if (bike.mount === 'direct' && (bike.bcdMm !== undefined || bike.gapsMm !== undefined)) {
    asks.push({
      field: 'mount',
      question: 'A direct-mount ring has no bolt circle, but one is told. How is the ring held?',
      choices: [
        { label: 'Bolted', setup: settling('mount', 'bolted') },
        { label: 'Direct mount', setup: settling('mount', 'direct') },
      ],
    });
  }
  const { bcdMm, innerBcdMm } = bike;
  if (bcdMm !== undefined && innerBcdMm !== undefined && innerBcdMm >= bcdMm) {
    asks.push({
      field: 'innerbcd',
      question: `An inner circle of ${innerBcdMm} mm does not go inside one of ${bcdMm} mm. Swapped?`,
      choices: innerBcdMm > bcdMm ? swappedCircles(bcdMm, innerBcdMm) : [],
    });
  }
  const pattern = gapsSay(bike);
  if (bike.pattern !== undefined && pattern !== null && pattern !== bike.pattern) {
    asks.push({
      field: 'pattern',
      question: `Gaps of ${bike.gapsMm?.join(' and ')} mm are an ${pattern} pattern, but ${bike.pattern} is told. Which is it?`,
      choices: (['even', 'uneven'] as const).map((each) => ({
        label: each === pattern ? `The gaps: ${each}` : `${capital(each)}; I measure again`,
        setup: settling('pattern', each),
      })),
    });
  }
  if (bike.suspension === 'none' && longestMm !== undefined) {
    asks.push({
      field: 'suspension',
      question: 'Without rear suspension there is no longest axle distance, but one is told. Is there a rear shock?',
      choices: [
        { label: 'Rear suspension', setup: settling('suspension', 'rear') },
        { label: 'No rear suspension', setup: settling('suspension', 'none') },
      ],
    });
  } else if (stayMm !== undefined && longestMm !== undefined && longestMm < stayMm) {
    asks.push({
      field: 'longest',
      question: `At its longest the axle distance is ${longestMm} mm, less than the chainstay of ${stayMm} mm. Swapped?`,
      choices: [
        {
          label: `Stays ${longestMm} mm, longest ${stayMm} mm`,
          setup: `${settling('stays', longestMm)} ${settling('longest', stayMm)}`,
        },
      ],
    });
  }
  if (chainPitches !== undefined && chainPitches % 2 !== 0) {
    asks.push({
      field: 'chain',
      question: `A chain closes on an even count of pitches, but ${chainPitches} are told. Was one missed?`,
      choices: [chainPitches - 1, chainPitches + 1].map((pitches) => ({
        label: `${pitches} pitches`,
        setup: settling('chain', pitches),
      })),
    });
  }
  const { minSprocketTeeth: least, maxSprocketTeeth: most } = bike;
  if (least !== undefined && most !== undefined && least > most) {
    asks.push({
      field: 'maxcog',
      question: `The rear derailleur wants at least ${least} teeth and takes at most ${most}. Swapped?`,
      choices: [
        {
          label: `At least ${most}, at most ${least}`,
          setup: `${settling('mincog', most)} ${settling('maxcog', least)}`,
        },
      ],
    });
  }
  if (bike.sharingRings !== undefined && bike.rings !== undefined && bike.sharingRings > bike.rings.length) {
    asks.push({
      field: 'sharing',
      question: `${bike.sharingRings} rings cannot share a circle where only ${bike.rings.join('/')} are fitted. How many?`,
      choices: bike.rings.map((_, index) => ({ label: String(index + 1), setup: settling('sharing', index + 1) })),
    });
  }
  return asks;
}

/** What two gaps say of the spacing; null where fewer are told. */
export function gapsSay({ gapsMm }: Bike): 'even' | 'uneven' | null {
  const [first, second] = gapsMm ?? [];
  if (first === undefined || second === undefined) return null;
  return Math.abs(first - second) > CIRCLE_RULES.unevenGaps.valueMm ? 'uneven' : 'even';
}

function swappedCircles(bcdMm: number, innerBcdMm: number): Question['choices'] {
  const { low, high } = KEYS.innerbcd;
  if (bcdMm < low || bcdMm > high) return [];
  return [
    {
      label: `Outer ${innerBcdMm} mm, inner ${bcdMm} mm`,
      setup: `${settling('bcd', innerBcdMm)} ${settling('innerbcd', bcdMm)}`,
    },
  ];
}

function capital(word: string): string {
  return word.charAt(0).toUpperCase() + word.slice(1);
}

/** Drops what a settled fact overrules, so that the answer to a question of {@link conflictsOf} ends it. */
export function overruled(bike: Bike, settled: ReadonlySet<keyof Bike>): Bike {
  const kept: { -readonly [P in keyof Bike]: Bike[P] } = { ...bike };
  const count = bike.cassette?.sprockets?.length;
  if (bike.cassette !== undefined && count !== undefined && bike.speeds !== undefined && count !== bike.speeds) {
    const { smallestTeeth, largestTeeth } = bike.cassette;
    if (settled.has('cassette')) kept.speeds = count;
    else if (settled.has('speeds')) kept.cassette = { smallestTeeth, largestTeeth };
  }
  if (settled.has('mount') && bike.mount === 'direct') {
    delete kept.bcdMm;
    delete kept.gapsMm;
  }
  const pattern = gapsSay(bike);
  if (settled.has('pattern') && pattern !== null && pattern !== bike.pattern) delete kept.gapsMm;
  if (settled.has('suspension') && bike.suspension === 'none') delete kept.longestMm;
  return kept;
}
