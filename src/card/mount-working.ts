import type { MountPart } from '../commands/answer.ts';
import { holeSpacingMm } from '../solve/bolt-circle.ts';
import { boltMarginMm, headReachMm } from '../solve/smallest-ring.ts';
import { BOLT_CIRCLES, CIRCLE_RULES } from '../tables/bolt-circles.ts';
import { RING_BOLT } from '../tables/ring-bolts.ts';
import { SOURCES } from '../tables/sources.ts';
import { SPROCKET_GEOMETRY } from '../tables/sprocket-geometry.ts';
import type { WorkingStep } from './card.ts';
import { plain } from './measures.ts';

const CRIB = SOURCES[BOLT_CIRCLES[0].cite.source];
const VALLEY_SOURCE = SOURCES[SPROCKET_GEOMETRY.roller.cite.source];
const HEAD_SOURCE = SOURCES[RING_BOLT.head.cite.source];
const STACK_SOURCE = SOURCES[RING_BOLT.leastClear.cite.source];
const PITCH = plain(SPROCKET_GEOMETRY.pitch.value, 1);
const ROLLER = plain(SPROCKET_GEOMETRY.roller.value, 2);
const HEAD = plain(RING_BOLT.head.valueMm, 1);
const ORDINARY = plain(CIRCLE_RULES.ordinaryMargin.valueMm, 1);
const SPECIAL = plain(CIRCLE_RULES.specialMargin.valueMm, 1);

function marginSteps(teeth: number, bcdMm: number): readonly WorkingStep[] {
  const bcd = plain(bcdMm, 1);
  const valley = plain(boltMarginMm(teeth, 0), 1);
  return [
    {
      quantity: `Valley diameter of ${teeth}T`,
      formula: 'p / sin(180°/N) − roller',
      numbers: `${PITCH} / sin(180°/${teeth}) − ${ROLLER}`,
      result: `${valley} mm`,
      source: VALLEY_SOURCE,
    },
    {
      quantity: `Margin of ${teeth}T`,
      formula: 'valley diameter − bolt circle',
      numbers: `${valley} − ${bcd}`,
      result: `${plain(boltMarginMm(teeth, bcdMm), 1)} mm; ${ORDINARY} is an ordinary ring, ${SPECIAL} a special one`,
      source: `fitted to the printed smallest rings: ${CRIB}`,
    },
  ];
}

/** How the figures of the bolts came about; `ringTeeth` adds the sums for one ring. */
export function mountWorking(part: MountPart, ringTeeth: number | null): readonly WorkingStep[] {
  const { bcdMm, bolts, smallestTeeth, stack } = part;
  const steps: WorkingStep[] = [];
  if (bcdMm !== null && bolts !== null && !part.unevenPattern) {
    steps.push({
      quantity: 'Gap between neighbouring holes',
      formula: 'c = BCD × sin(180°/n)',
      numbers: `${plain(bcdMm, 1)} × sin(180°/${bolts})`,
      result: `${plain(holeSpacingMm(bcdMm, bolts), 1)} mm`,
      source: `geometry; ${CRIB}`,
    });
  }
  if (bcdMm !== null && smallestTeeth !== null) {
    steps.push(
      {
        quantity: 'Smallest ring',
        formula: part.smallestFrom === 'table' ? 'as printed for the circle' : `least teeth with ${ORDINARY} mm margin`,
        numbers: `${plain(bcdMm, 1)} mm`,
        result: `${smallestTeeth}T, even ${part.smallestEvenTeeth}T`,
        source: part.smallestFrom === 'table' ? CRIB : `geometry, fitted to ${CRIB}`,
      },
      ...marginSteps(smallestTeeth, bcdMm),
      {
        quantity: 'What the bolt heads need',
        formula: 'bolt circle + head',
        numbers: `${plain(bcdMm, 1)} + ${HEAD}`,
        result: `${plain(headReachMm(bcdMm), 1)} mm, which the valleys must clear`,
        source: HEAD_SOURCE,
      },
    );
    if (ringTeeth !== null && ringTeeth < smallestTeeth) steps.push(...marginSteps(ringTeeth, bcdMm));
  }
  if (stack !== null) {
    steps.push({
      quantity: 'Grip of the bolts',
      formula: 'ring tab + crank tab; less the sleeve at least 0.3 mm',
      numbers: stack.sleeveMm === null ? 'sleeve not measured' : `grip − ${plain(stack.sleeveMm, 1)}`,
      result:
        stack.clearanceMm === null
          ? `${plain(stack.gripMm, 1)} mm grip`
          : `${plain(stack.gripMm, 1)} mm grip, ${plain(stack.clearanceMm, 1)} mm clear`,
      source: `${STACK_SOURCE}; 0.3 mm common practice`,
    });
  }
  return steps;
}
