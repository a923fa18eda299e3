import { developmentM, gainRatio, gearInches, speedKmh } from '../solve/gears.ts';
import { TERRAIN_WEIGHTS } from '../solve/ring-options.ts';
import { BEAD_SEATS } from '../tables/bead-seats.ts';
import { SOURCES } from '../tables/sources.ts';
import type { WorkingStep } from './card.ts';
import { climbWorking } from './climb.ts';
import type { GearsFacts } from './gears-facts.ts';
import { plain, ratio, speed } from './measures.ts';

/** Every figure of the gears section with its formula, the rider's own numbers and who says so. */
export function gearsWorking(facts: GearsFacts): WorkingStep[] {
  const { ring, cassetteThen, now, wheel, cadenceRpm, crankMm } = facts;
  if (ring === null) return wheel === null ? [] : [circumferenceStep(wheel)];
  const steps: WorkingStep[] = [
    {
      quantity: 'Lowest and highest ratio',
      formula: 'ratio = ring ÷ sprocket',
      numbers: `${ring.teeth} ÷ ${cassetteThen.largestTeeth}; ${ring.teeth} ÷ ${cassetteThen.smallestTeeth}`,
      result: `${ratio(ring.lowestRatio)} and ${ratio(ring.highestRatio)}`,
      source: SOURCES.BrownGain,
    },
    {
      quantity: 'Range',
      formula: 'range = highest ÷ lowest',
      numbers: `${ratio(ring.highestRatio)} ÷ ${ratio(ring.lowestRatio)}`,
      result: `${plain(ring.rangePct, 0)} %, now ${plain(now.rangePct, 0)} %`,
      source: SOURCES.GravelArticle2016,
    },
    costStep(facts, ring.lowestRatio, ring.highestRatio, ring.cost),
  ];
  if (wheel !== null) {
    const { circumferenceMm } = wheel;
    const low = developmentM(ring.lowestRatio, circumferenceMm);
    const high = developmentM(ring.highestRatio, circumferenceMm);
    const inches = plain(gearInches(1, circumferenceMm), 1);
    steps.push(
      circumferenceStep(wheel),
      {
        quantity: 'Development',
        formula: 'development = ratio × circumference',
        numbers: `${ratio(ring.lowestRatio)} and ${ratio(ring.highestRatio)} × ${plain(circumferenceMm / 1000, 3)} m`,
        result: `${low.toFixed(2)} m and ${high.toFixed(2)} m a turn`,
        source: 'geometry',
      },
      {
        quantity: 'Speed',
        formula: 'km/h = development × rpm × 0.06',
        numbers: `${low.toFixed(2)} and ${high.toFixed(2)} m × ${plain(cadenceRpm, 1)} × 0.06`,
        result: `${speed(speedKmh(low, cadenceRpm))} and ${speed(speedKmh(high, cadenceRpm))}`,
        source: 'geometry',
      },
      {
        quantity: 'Gear inches',
        formula: 'gear inches = ratio × wheel diameter',
        numbers: `${ratio(ring.lowestRatio)} and ${ratio(ring.highestRatio)} × ${inches} in`,
        result: `${inchesText(ring.lowestRatio, circumferenceMm)} and ${inchesText(ring.highestRatio, circumferenceMm)}`,
        source: 'common practice',
      },
    );
    if (crankMm !== null) {
      const radiusMm = circumferenceMm / (2 * Math.PI);
      steps.push({
        quantity: 'Gain ratio',
        formula: 'gain = ratio × wheel radius ÷ crank length',
        numbers: `${ratio(ring.lowestRatio)} and ${ratio(ring.highestRatio)} × ${plain(radiusMm, 1)} mm ÷ ${plain(crankMm, 1)} mm`,
        result: `${ratio(gainRatio(ring.lowestRatio, radiusMm, crankMm))} and ${ratio(gainRatio(ring.highestRatio, radiusMm, crankMm))}`,
        source: SOURCES.BrownGain,
      });
    }
  }
  if (facts.climb !== null) steps.push(...climbWorking(facts.climb));
  return steps;
}

function inchesText(gear: number, circumferenceMm: number): string {
  return `${gearInches(gear, circumferenceMm).toFixed(1)} in`;
}

function costStep(facts: GearsFacts, lowest: number, highest: number, cost: number): WorkingStep {
  const { low, high } = TERRAIN_WEIGHTS[facts.terrain];
  const { now } = facts;
  return {
    quantity: 'Cost, to rank the rings',
    formula: `${low} × ln(lowest new ÷ now) + ${high} × ln(highest now ÷ new), a gain counts as 0`,
    numbers: `${low} × ln(${ratio(lowest)} ÷ ${ratio(now.lowestRatio)}) + ${high} × ln(${ratio(now.highestRatio)} ÷ ${ratio(highest)})`,
    result: cost.toFixed(2),
    source: `our own weights for ${facts.terrain === 'rolling' ? 'rolling ground' : facts.terrain}`,
  };
}

function circumferenceStep(wheel: NonNullable<GearsFacts['wheel']>): WorkingStep {
  const result = `${plain(wheel.circumferenceMm, 0)} mm`;
  const quantity = 'Wheel circumference';
  if (wheel.beadSeatMm === null || wheel.widthMm === null) {
    return { quantity, formula: 'rolled out and measured', numbers: result, result, source: 'your measurement' };
  }
  const names = BEAD_SEATS.find((row) => row.beadSeatMm === wheel.beadSeatMm)?.names;
  const size = `${plain(wheel.widthMm, 1)}-${wheel.beadSeatMm}${names === undefined ? '' : ` (${names})`}`;
  if (wheel.from === 'chart') {
    return { quantity, formula: 'printed for this tyre size', numbers: size, result, source: SOURCES.TyreChart };
  }
  const chart = wheel.chartMm === null ? '' : `; a printed chart gives ${wheel.chartMm} mm`;
  return {
    quantity,
    formula: 'π × (bead seat + 2 × tyre width)',
    numbers: `π × (${wheel.beadSeatMm} + 2 × ${plain(wheel.widthMm, 1)}) mm, ${size}${wheel.widthAssumed ? ', width assumed' : ''}`,
    result: `${result}${chart}`,
    source: 'geometry',
  };
}
