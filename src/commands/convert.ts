import type { KeyName } from '../bike/keys.ts';
import type { Question } from '../bike/reading.ts';
import type { SettledBike } from '../bike/settled.ts';
import { boltStackFigure } from '../card/bolt-stack-figure.ts';
import type { Block, FigureBlock } from '../card/card.ts';
import { chainSection } from '../card/chain.ts';
import { chainFigure } from '../card/chain-figure.ts';
import { chainlineSection } from '../card/chainline.ts';
import { chainlineFigure } from '../card/chainline-figure.ts';
import { type PlanFacts, planAnswer, planLines, sectionText } from '../card/convert.ts';
import { derailleurBlocks } from '../card/derailleur.ts';
import { cassetteProblemWords } from '../card/fit-reasons.ts';
import { fittedRingCautions } from '../card/fitted-ring.ts';
import { gearsBlocks, terrainQuestion, topWords } from '../card/gears.ts';
import { gearsFigure } from '../card/gears-figure.ts';
import { mountHeadline, mountLines, mountSection } from '../card/mount.ts';
import { boltLine } from '../card/mount-bolts.ts';
import { BETTER_LEFT_ALONE, objectionBlocks } from '../card/objections.ts';
import { retentionBlocks } from '../card/retention.ts';
import { safetyBlocks } from '../card/torque.ts';
import { trialWords } from '../card/trial.ts';
import { wearBlocks, wearHeadline, wearLines } from '../card/wear.ts';
import { weightAnswer, weightBlocks, weightLines } from '../card/weight.ts';
import { workBlocks } from '../card/work.ts';
import { outerCirclesMm } from '../solve/bolt-circle.ts';
import { ringOptions, ringsByCost } from '../solve/ring-options.ts';
import type { ChainPart, MountPart } from './answer.ts';
import { chainAsks, chainPart } from './chain.ts';
import { chainlinePart } from './chainline.ts';
import type { Command, Outcome } from './command.ts';
import { derailleurPart } from './derailleur-part.ts';
import { driveParts } from './drive-parts.ts';
import { type GearsPart, gearsPart } from './gears.ts';
import { fitOnCircle, type MountFindings, mountPart } from './mount.ts';
import { notYet } from './not-yet.ts';
import { objectionsFor } from './objections.ts';
import { retentionPart } from './retention-part.ts';
import { torqueChecklist, torqueRows } from './torque.ts';
import { wearPart } from './wear.ts';
import { atTheMotor, weightAssumed, weightPart } from './weight.ts';

type Gears = Extract<GearsPart, { readonly kind: 'found' }>;

function answer(bike: SettledBike): Outcome {
  const mounting = mountPart(bike);
  const mount = withBestRings(bike, mounting.part);
  const gears = gearsPart(bike, mounting.fitOf, likelyRing(mount) ?? ringBesideCassette(bike));
  return gears.kind === 'cannot' ? notYet(bike, mounting, gears.asks) : plan(bike, { ...mounting, part: mount }, gears);
}

/** The circles a crank may have, each with the ring that would cost least on it. */
function withBestRings(bike: SettledBike, mount: MountPart): MountPart {
  const { rings, cassette } = bike;
  if (mount.candidates.length === 0 || rings === undefined || cassette === undefined) return mount;
  const order = ringsByCost({ rings, now: cassette, after: bike.newCassette ?? cassette, terrain: bike.terrain });
  const candidates = mount.candidates.map((candidate) => {
    const fitOf = fitOnCircle(bike, candidate);
    return { ...candidate, recommendedTeeth: order.find((teeth) => fitOf(teeth).fit === 'fits') ?? null };
  });
  return { ...mount, candidates };
}

/** The ring that would suit if the derailleur took the new cassette: no ring is at fault for one that it does not. */
function ringBesideCassette(bike: SettledBike): number | null {
  const { rings, cassette, newCassette, ...crank } = bike;
  if (rings === undefined || cassette === undefined || newCassette === undefined) return null;
  const choice = ringOptions({
    rings,
    now: cassette,
    after: newCassette,
    wantedTeeth: null,
    terrain: bike.terrain,
    circumferenceMm: null,
    cadenceRpm: bike.cadenceRpm,
    fitOf: mountPart({ ...crank, rings }).fitOf,
  });
  return choice.recommended ?? choice.provisional;
}

/** The middle one of the circles' best rings: it sits on half of them or more, and costs little more on the others. */
function likelyRing({ candidates }: MountPart): number | null {
  const best = candidates.flatMap((each) => (each.recommendedTeeth === null ? [] : [each.recommendedTeeth]));
  return best.sort((one, other) => one - other)[(best.length - 1) >> 1] ?? null;
}

function plan(bike: SettledBike, mounting: MountFindings, gears: Gears): Outcome {
  const { facts, speaksOf } = gears;
  const { ring } = facts;
  const mount = mounting.part;
  const chain = ring === null ? null : chainPart(bike, ring.teeth);
  const chainline = chainlinePart(bike, gears.sprockets.after?.teeth ?? null);
  const derailleur = derailleurPart(bike);
  const retention = retentionPart(bike);
  const torque = torqueRows(bike);
  const weight = ring === null ? null : weightPart(bike, ring.teeth, chainOut(chain));
  const objections = objectionsFor(bike, mount.smallestEvenTeeth);
  const wear = bike.wearPct === undefined ? null : wearPart(bike);
  const drive = driveParts(bike);
  const problems = derailleur?.verdict.problems.map(cassetteProblemWords) ?? [];
  const planFacts: PlanFacts = {
    gears: facts,
    speaksOf,
    ring,
    chain,
    weight,
    cassetteProblems: problems,
    topLine: ring === null ? null : topWords(ring, facts.now),
    driveUnit: mount.driveUnit,
    boltLine:
      mount.driveUnit === 'certain' || mount.mount === 'direct' || mount.mount === 'riveted'
        ? null
        : boltLine(mount, mounting.facts.sharing),
    wearLine: wear?.verdict === 'ride-on' || wear?.verdict === null ? null : wear && `Chain ${wearHeadline(wear)}`,
    mountAnswer: mount.mount === 'riveted' ? mountHeadline(mount, mounting.facts) : null,
    crankLines: mount.mount === 'riveted' ? mountLines(mount, mounting.facts) : [],
  };

  const chainWorn = wear?.verdict === 'replace-chain' || wear?.verdict === 'replace-chain-check-cassette';
  const blocks: Block[] = [
    ...objectionBlocks(objections),
    ...fittedRingCautions(mount, bike, 'summary'),
    ...drive.cautions,
    ...gearsBlocks(facts, 'plan'),
  ];
  addFigure(blocks, gearsFigure(facts, gears.trial?.avoid ?? []));
  if (ring !== null && gears.trial !== null) {
    blocks.push(...trialWords({ ...gears.trial, ringTeeth: ring.teeth, sprockets: facts.sprocketsNow }));
  }
  if (chain !== null) {
    blocks.push(...chainSection(chain, bike, chainWorn));
    addFigure(blocks, chainFigure(chain, bike.join ?? null));
  }
  blocks.push(...mountSection(mount, mounting.facts, bike, ring?.teeth ?? null));
  addFigure(blocks, boltStackFigure(mount.stack, bike));
  blocks.push(...chainlineSection(chainline.part, bike, chainline.spacing));
  addFigure(blocks, chainlineFigure(chainline.part, chainline.sprocketLines, bike, ring?.teeth ?? null));
  if (derailleur !== null) blocks.push(...derailleurBlocks(derailleur.part, derailleur.verdict, bike));
  blocks.push(...retentionBlocks(retention.part, bike), torqueChecklist(bike));
  if (weight !== null) {
    blocks.push(
      sectionText('weight', 'Weight saved', [
        weightAnswer(weight, ring?.teeth ?? null),
        ...weightLines(weight, atTheMotor(bike)),
      ]),
      ...weightBlocks(weight),
    );
  }
  if (wear !== null)
    blocks.push(sectionText('wear', 'Chain wear', [wearHeadline(wear), ...wearLines(wear)]), ...wearBlocks(wear));
  // What speaks against the work stands before its parts and steps.
  blocks.push(BETTER_LEFT_ALONE, ...drive.notes);
  if (ring !== null) {
    blocks.push(
      ...workBlocks({
        ringTeeth: ring.teeth,
        frontDerailleur: facts.rings.length > 1,
        mount: mount.mount,
        // The ring to buy is none for the inner circle, which is the only one told.
        bcdMm: isInnerOnly(mount, facts.rings) ? null : mount.bcdMm,
        unevenPattern: mount.unevenPattern,
        bolts: mount.bolts,
        boltAdvice: mount.boltAdvice,
        crankType: bike.crankType ?? null,
        bar: bike.bar ?? null,
        clutch: bike.clutch ?? null,
        guide: bike.guide ?? null,
        join: bike.join ?? null,
        speeds: facts.speeds,
        chainWorn,
        chainGate: chain?.gate ?? 'measure-first',
        targetPitches: chain?.targetPitches ?? null,
        removePitches: chain?.removePitches ?? null,
        addPitches: chain?.addPitches ?? null,
        newCassette: bike.newCassette !== undefined,
        assist: bike.assist === undefined || bike.assist === 'none' ? null : bike.assist,
        tandem: bike.tandem === true,
      }),
    );
  }
  // A climb takes the handlebar for granted as well, and more than once it need not be said.
  const barTold = weight === null || gears.assumed.some((each) => each.field === 'bar');
  const barAssumed = barTold ? [] : weightAssumed(bike);
  const asks = askOrder(bike, mounting, gears, drive.asks, [
    chainAsks(bike),
    chainline.asks,
    // What it takes besides changes nothing once one limit is passed.
    problems.length > 0 ? [] : (derailleur?.asks ?? []),
    retention.asks,
  ]);
  blocks.push(...safetyBlocks());

  return {
    kind: 'answered',
    answer: {
      ...(speaksOf === null ? {} : { speaksOf }),
      rings: gears.options,
      now: facts.now,
      sprockets: gears.sprockets,
      ...(chain === null ? {} : { chain }),
      mount,
      chainline: chainline.part,
      ...(derailleur === null ? {} : { derailleur: derailleur.part }),
      retention: retention.part,
      torque,
      ...(weight === null ? {} : { weight }),
      ...(wear === null ? {} : { wear }),
      widerCassettes: facts.widerCassettes,
      ...(gears.climb === null ? {} : { climb: gears.climb }),
      ...(gears.trial === null ? {} : { trial: gears.trial }),
      objections,
      ...drive.parts,
    },
    words: { answer: planAnswer(planFacts), lines: planLines(planFacts), blocks },
    assumed: [...mounting.assumed, ...gears.assumed, ...barAssumed],
    asks,
  };
}

function isInnerOnly({ bcdMm, bolts }: MountPart, rings: readonly number[]): boolean {
  return bcdMm !== null && rings.length > 1 && outerCirclesMm({ bcdMm, bolts }).length > 0;
}

function addFigure(blocks: Block[], figure: FigureBlock | null): void {
  if (figure !== null) blocks.push(figure);
}

/** Pitches that leave the bike: over 0 taken out, under 0 put in, null while nobody knows. */
function chainOut(chain: ChainPart | null): number | null {
  if (chain === null || chain.removePitches === null) return chain?.addPitches ? -chain.addPitches : null;
  return chain.removePitches;
}

/** The questions whose answer changes the plan most come first: which ring, then whether it is safe to cut, then by how much. */
function askOrder(
  bike: SettledBike,
  mounting: MountFindings,
  gears: Gears,
  motor: readonly Question[],
  others: readonly (readonly Question[])[],
): readonly Question[] {
  const { mount } = mounting.part;
  // Riveted rings: first another crank, then whatever it asks for.
  if (mount === 'riveted') return motor;
  const sharing = mounting.asks.filter((each) => each.field === 'sharing');
  const circle = mounting.asks.filter((each) => each.field !== 'sharing');
  const [chain = [], chainline = [], derailleur = [], retention = []] = others;
  const open = bike.terrainAssumed === true && bike.ringTeeth === undefined;
  const terrain = open ? terrainQuestion(gears.facts) : null;
  const size = terrain === null ? [] : [terrain];
  return [
    ...motor,
    ...circle,
    ...derailleur,
    ...size,
    ...chain,
    ...gears.asks,
    ...sharing,
    ...retention,
    ...chainline,
  ].slice(0, 3);
}

const KEYS_LOOKED_AT: readonly KeyName[] = [
  'rings',
  'cassette',
  'speeds',
  'ring',
  'newcassette',
  'bcd',
  'bolts',
  'gap',
  'mount',
  'sharing',
  'stays',
  'suspension',
  'longest',
  'chain',
  'wheel',
  'terrain',
  'clutch',
  'guide',
  'ground',
  'cranktype',
  'boltmaterial',
  'bar',
  'join',
  'allowance',
  'maxcog',
  'mincog',
  'capacity',
  'cage',
  'hub',
  'chainline',
  'offset',
  'maxring',
  'oval',
  'cadence',
  'crank',
  'power',
  'rider',
  'bikeweight',
  'ringtab',
  'spidertab',
  'sleeve',
  'wear',
  'pattern',
  'innerbcd',
  'assist',
  'tandem',
  'units',
];

/** The whole plan. */
export const convert: Command = {
  name: 'convert',
  summary: 'The whole plan for one ring: gears, chain, bolts, chainline, torque, weight, order of work',
  keys: KEYS_LOOKED_AT,
  examples: [
    '2x10 36/22 11-36 29er hardtail 104bcd clutch',
    '50/34 11-32 700x28 gap=64.7mm bolts=5 ring=42',
    'full sus 36/26 11-42 to 32 stays=435mm longest=452mm',
  ],
  answer,
};
