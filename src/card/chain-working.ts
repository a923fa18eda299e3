import type { SettledBike } from '../bike/settled.ts';
import type { ChainPart } from '../commands/answer.ts';
import { freedByFewerTeeth, justFitsPitches } from '../solve/chain-length.ts';
import { approximateWrapPitches } from '../solve/chain-wrap.ts';
import { outsideDiameterMm, pitchDiameterMm } from '../solve/sprocket-diameters.ts';
import { ALLOWANCES, CHAIN_RULES } from '../tables/chain-rules.ts';
import { SOURCES } from '../tables/sources.ts';
import { SPROCKET_GEOMETRY } from '../tables/sprocket-geometry.ts';
import { shortSource } from './basis.ts';
import type { WorkingStep } from './card.ts';
import { plain } from './measures.ts';

const PITCH = plain(SPROCKET_GEOMETRY.pitch.value, 1);
const DIAMETER_SOURCE = SOURCES.PlateWheel;
const TIP_SOURCE = shortSource(SPROCKET_GEOMETRY.tip);
const PITCH_SOURCE = shortSource(SPROCKET_GEOMETRY.pitch);
const WRAP_SOURCE = shortSource(CHAIN_RULES.wrap);
const NEXT_EVEN_SOURCE = shortSource(CHAIN_RULES.nextEven);
const HALF_TOOTH_SOURCE = shortSource(CHAIN_RULES.halfTooth);
const LONGEST_SOURCE = shortSource(CHAIN_RULES.longest);

function diameterStep(name: string, teeth: number): WorkingStep {
  return {
    quantity: `Pitch diameter of the ${name}`,
    formula: 'PD = p / sin(180°/N)',
    numbers: `${PITCH} / sin(180°/${teeth})`,
    result: `${plain(pitchDiameterMm(teeth), 2)} mm`,
    source: DIAMETER_SOURCE,
  };
}

function tipStep(teeth: number, ovalityPct: number): WorkingStep {
  // An oval ring's long axis is about half its ovality over the round ring of the same count.
  const acrossMm = outsideDiameterMm(teeth) * (1 + ovalityPct / 200);
  const scatter = plain(SPROCKET_GEOMETRY.tipScatter.value, 0);
  return {
    quantity: 'Room for the ring',
    formula: 'OD = p(0.6 + cot(180°/N)), half of it from the crank axle',
    numbers: `${PITCH} × (0.6 + cot(180°/${teeth}))${ovalityPct > 0 ? ` × (1 + ${plain(ovalityPct, 1)} %/2)` : ''}`,
    result: `${plain(acrossMm, 1)} mm over the tips, ${plain(acrossMm / 2, 1)} mm from the axle; tips vary by about ${scatter} mm`,
    source: TIP_SOURCE,
  };
}

/** Old less new teeth of the two wheels the chain is sized on; null where the old ones are unknown. */
function fewerTeeth(part: ChainPart, bike: SettledBike): number | null {
  const oldRing = bike.rings?.[0];
  const oldSprocket = bike.cassette?.largestTeeth;
  if (oldRing === undefined || oldSprocket === undefined) return null;
  return oldRing + oldSprocket - part.ringTeeth - part.sprocketTeeth;
}

/** What the change of teeth alone frees, in one line; null where nothing changed or the old wheels are unknown. */
export function toothChangeLine(part: ChainPart, bike: SettledBike): string | null {
  const fewer = fewerTeeth(part, bike);
  if (fewer === null || fewer === 0) return null;
  const { freedPitches, outPitches } = freedByFewerTeeth(fewer);
  const pairs = Math.abs(outPitches) / 2;
  const pairWords = `${pairs} ${pairs === 1 ? 'pair' : 'pairs'}`;
  const size = plain(Math.abs(freedPitches), 1);
  if (fewer < 0) return `Rule of thumb: ${-fewer} teeth more take ${size} pitches; in whole pairs, ${pairWords} in.`;
  const out = outPitches === 0 ? 'no whole pair comes out' : `in whole pairs, ${pairWords} out`;
  return `Rule of thumb: ${fewer} teeth fewer free ${size} pitches; ${out}.`;
}

/** How the length came about, step by step with the rider's own numbers; empty while the gate is shut. */
export function chainWorking(part: ChainPart, bike: SettledBike): readonly WorkingStep[] {
  const { ringTeeth, sprocketTeeth, wrapPitches, targetPitches, targetMm, alternativeRulePitches } = part;
  const centreMm = part.centreMm ?? null;
  if (
    centreMm === null ||
    wrapPitches === null ||
    targetPitches === null ||
    targetMm === null ||
    alternativeRulePitches === null
  ) {
    return [];
  }
  const wrap = plain(wrapPitches, 3);
  const centre = `C = ${plain(centreMm, 1)}/${PITCH} = ${plain(centreMm / SPROCKET_GEOMETRY.pitch.value, 3)}`;
  const rule = ALLOWANCES.find((row) => row.allowancePitches === part.allowancePitches);
  const steps: WorkingStep[] = [
    diameterStep('ring', ringTeeth),
    diameterStep('sprocket', sprocketTeeth),
    {
      quantity: 'Bare wrap',
      formula: 'L = 2√(C² − (R − r)²) + N(½ + α/π) + n(½ − α/π), α = asin((R − r)/C)',
      numbers: `N = ${ringTeeth}, n = ${sprocketTeeth}, ${centre}, all in pitches`,
      result: `${wrap} pitches`,
      source: WRAP_SOURCE,
    },
    {
      quantity: 'The textbook approximation gives',
      formula: 'L = 2C + (N + n)/2 + (N − n)²/(4π²C)',
      numbers: `N = ${ringTeeth}, n = ${sprocketTeeth}, ${centre}`,
      result: `${plain(approximateWrapPitches(ringTeeth, sprocketTeeth, centreMm), 3)} pitches`,
      source: WRAP_SOURCE,
    },
    {
      quantity: 'Chain',
      formula: `bare wrap + allowance, up to even${rule === undefined ? '' : `: ${rule.rule}`}`,
      numbers: `${wrap} + ${part.allowancePitches} = ${plain(wrapPitches + part.allowancePitches, 3)}`,
      result: `${targetPitches} pitches`,
      source: rule === undefined ? 'common practice' : shortSource(rule),
    },
    {
      quantity: 'Second printed rule',
      formula: CHAIN_RULES.nextEven.rule,
      numbers: `${justFitsPitches(wrapPitches)} just fits`,
      result: `${alternativeRulePitches} pitches`,
      source: NEXT_EVEN_SOURCE,
    },
    {
      quantity: 'Length',
      formula: 'pitches × p',
      numbers: `${targetPitches} × ${PITCH}`,
      result: `${plain(targetMm, 1)} mm`,
      source: PITCH_SOURCE,
    },
  ];
  if (part.growthMm !== null && part.growthPitches !== null) {
    steps.push({
      quantity: 'What the suspension adds',
      formula: `2g/p: ${CHAIN_RULES.longest.rule}`,
      numbers: `2 × ${plain(part.growthMm, 1)}/${PITCH}`,
      result: `${plain(part.growthPitches, 2)} pitches`,
      source: LONGEST_SOURCE,
    });
  }
  const fewer = fewerTeeth(part, bike);
  if (fewer !== null && fewer !== 0) {
    const { freedPitches, outPitches } = freedByFewerTeeth(fewer);
    steps.push({
      quantity: 'Rule of thumb',
      formula: CHAIN_RULES.halfTooth.rule,
      numbers: `½ × ${plain(fewer, 0)}`,
      result: `${plain(freedPitches, 1)} pitches free, ${plain(outPitches, 0)} in whole pairs`,
      source: HALF_TOOTH_SOURCE,
    });
  }
  steps.push(tipStep(ringTeeth, bike.ovalityPct ?? 0));
  return steps;
}
