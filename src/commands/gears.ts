import type { Assumption, Question } from '../bike/reading.ts';
import type { SettledBike } from '../bike/settled.ts';
import { gearsWords } from '../card/gears.ts';
import type { GearsFacts } from '../card/gears-facts.ts';
import { gearsFigure } from '../card/gears-figure.ts';
import { sprocketTable } from '../card/sprocket-table.ts';
import { trialWords } from '../card/trial.ts';
import { gearRange, stepsPct } from '../solve/gears.ts';
import { type LostSpan, lostGears } from '../solve/lost-gears.ts';
import {
  type RingChoice,
  type RingFit,
  type RingOption,
  ringOptions,
  ringsAlike,
  ringsThatKeep,
  shownRings,
} from '../solve/ring-options.ts';
import { type SprocketList, sprocketList } from '../solve/sprocket-list.ts';
import { wheelCircumference } from '../solve/wheel-circumference.ts';
import { largestSprocketToKeep, widerCassettes } from '../solve/wider-cassette.ts';
import type { ClimbPart, SpeaksOf, SprocketsPart, TrialPart } from './answer.ts';
import { climbAsks, climbOf } from './climb-part.ts';
import type { Command, Outcome } from './command.ts';
import { driveParts } from './drive-parts.ts';
import { sprocketAssumptions, wheelAssumption } from './gear-assumptions.ts';

/** Everything the gears of a bike come to: the machine-readable parts, and the facts their words are made from. */
export type GearsPart =
  | {
      readonly kind: 'found';
      readonly options: readonly RingOption[];
      readonly recommended: number | null;
      /** The ring the single-ring parts speak of; null when nothing was wanted and nothing can be fitted. */
      readonly speaksOf: SpeaksOf | null;
      readonly sprockets: { readonly now: SprocketsPart | null; readonly after: SprocketsPart | null };
      readonly climb: ClimbPart | null;
      readonly trial: (TrialPart & { readonly spans: readonly LostSpan[] }) | null;
      readonly facts: GearsFacts;
      readonly assumed: readonly Assumption[];
      /** What would sharpen the answer. */
      readonly asks: readonly Question[];
    }
  | { readonly kind: 'cannot'; readonly asks: readonly Question[] };

type Told = NonNullable<SettledBike['cassette']>;

/**
 * Works out the gears of a bike; `fitOf` says which rings its crank, frame and derailleur take. Where none is sure to
 * fit, `likelyTeeth` is the ring to speak of, if the crank leaves one more likely than others.
 */
export function gearsPart(
  bike: SettledBike,
  fitOf: (teeth: number) => RingFit,
  likelyTeeth: number | null = null,
): GearsPart {
  const { rings, cassette } = bike;
  if (rings === undefined || cassette === undefined) return { kind: 'cannot', asks: missing(bike) };
  const after = bike.newCassette ?? cassette;
  const wantedTeeth = bike.ringTeeth ?? null;
  const wheel = bike.wheel === undefined ? null : wheelCircumference(bike.wheel, Math.max(...rings));
  const circumferenceMm = wheel?.kind === 'found' ? wheel.circumferenceMm : null;
  const now = gearRange({
    largestRingTeeth: Math.max(...rings),
    smallestRingTeeth: Math.min(...rings),
    smallestSprocketTeeth: cassette.smallestTeeth,
    largestSprocketTeeth: cassette.largestTeeth,
    circumferenceMm,
    cadenceRpm: bike.cadenceRpm,
  });
  const choice = ringOptions({
    rings,
    now: cassette,
    after,
    wantedTeeth,
    terrain: bike.terrain,
    circumferenceMm,
    cadenceRpm: bike.cadenceRpm,
    fitOf,
  });
  const speaksOf = ringToSpeakOf({ ...choice, provisional: likelyTeeth ?? choice.provisional }, wantedTeeth);
  const ring = choice.options.find((option) => option.teeth === speaksOf?.teeth) ?? null;
  const speeds = cassette.sprockets?.length ?? bike.speeds ?? null;
  const sprocketsNow = listOf(cassette, speeds);
  const sprocketsThen = after === cassette ? sprocketsNow : listOf(after, speeds);
  const climb = ring === null ? null : climbOf(bike, ring, now);
  const lost =
    ring === null
      ? null
      : lostGears({
          rings,
          sprockets: sprocketsNow.kind === 'found' ? sprocketsNow.sprockets : null,
          smallestTeeth: cassette.smallestTeeth,
          largestTeeth: cassette.largestTeeth,
          newLowestRatio: ring.lowestRatio,
          newHighestRatio: ring.highestRatio,
        });
  const facts: GearsFacts = {
    rings,
    cassetteNow: cassette,
    cassetteThen: after,
    speeds,
    now,
    shown: shownRings(choice.options, choice.recommended ?? speaksOf?.teeth ?? null, wantedTeeth),
    wantedTeeth,
    ring,
    alike: ringsAlike(choice.options, choice.recommended),
    byTerrain: choice.byTerrain,
    terrain: bike.terrain,
    cadenceRpm: bike.cadenceRpm,
    crankMm: bike.crankMm ?? null,
    wheel: wheel?.kind === 'found' ? wheel : null,
    sprocketsNow,
    sprocketsThen,
    keeps: ringsThatKeep(now, after),
    keepSprocketTeeth: ring === null ? null : largestSprocketToKeep(ring.teeth, now.lowestRatio),
    widerCassettes:
      ring === null
        ? []
        : widerCassettes({
            ringTeeth: ring.teeth,
            nowLowestRatio: now.lowestRatio,
            smallestTeeth: after.smallestTeeth,
            largestTeeth: after.largestTeeth,
            speeds: after.sprockets?.length ?? speeds,
            capacityTeeth: bike.capacityTeeth ?? null,
            maxSprocketTeeth: bike.maxSprocketTeeth ?? null,
            minSprocketTeeth: bike.minSprocketTeeth ?? null,
          }),
    climb: climb?.facts ?? null,
  };
  const assumed = [...sprocketAssumptions(facts), ...wheelAssumption(facts), ...(climb?.assumed ?? [])];
  return {
    kind: 'found',
    options: choice.options,
    recommended: choice.recommended,
    speaksOf,
    sprockets: { now: partOf(sprocketsNow), after: partOf(sprocketsThen) },
    climb: climb?.part ?? null,
    trial: lost,
    facts,
    assumed,
    asks: [...(facts.wheel === null ? [wheelQuestion(bike)] : []), ...climbAsks(bike)],
  };
}

function listOf(cassette: Told, speeds: number | null): SprocketList {
  const { smallestTeeth, largestTeeth, sprockets = null } = cassette;
  return sprocketList({ smallestTeeth, largestTeeth, speeds, sprockets });
}

function partOf(list: SprocketList): SprocketsPart | null {
  if (list.kind === 'cannot') return null;
  return { teeth: list.sprockets, from: list.from, stepsPct: stepsPct(list.sprockets) };
}

/** The wanted ring if it may be fitted, else what is recommended, else what may fit; a refused wish comes last of all. */
function ringToSpeakOf(choice: RingChoice, wantedTeeth: number | null): SpeaksOf | null {
  const wanted = choice.options.find((option) => option.teeth === wantedTeeth);
  if (wanted !== undefined && wanted.fit !== 'no') return { teeth: wanted.teeth, because: 'wanted' };
  if (wanted !== undefined) {
    const teeth = choice.recommended ?? besideOdd(choice, wanted.teeth) ?? choice.provisional ?? wanted.teeth;
    return { teeth, because: 'wanted-cannot-fit' };
  }
  if (choice.recommended !== null) return { teeth: choice.recommended, because: 'recommended' };
  return choice.provisional === null ? null : { teeth: choice.provisional, because: 'provisional' };
}

/** Of the two even sizes beside an odd wish, the one that costs less; null for an even wish. */
function besideOdd(choice: RingChoice, wantedTeeth: number): number | null {
  if (wantedTeeth % 2 === 0) return null;
  const beside = choice.options.filter(({ teeth, fit }) => fit !== 'no' && Math.abs(teeth - wantedTeeth) === 1);
  const [smaller, larger] = beside;
  if (smaller === undefined) return null;
  return larger !== undefined && larger.cost < smaller.cost ? larger.teeth : smaller.teeth;
}

function missing(bike: SettledBike): Question[] {
  const asks: Question[] = [];
  if (bike.rings === undefined) {
    asks.push({
      field: 'rings',
      question: 'Which rings are on the crank now? Count the teeth, or read the number on the back.',
      choices: [
        { label: '36/22', setup: 'rings=36/22' },
        { label: '44/32/22', setup: 'rings=44/32/22' },
        { label: '50/34', setup: 'rings=50/34' },
      ],
    });
  }
  if (bike.cassette === undefined) {
    asks.push({
      field: 'cassette',
      question: 'Which cassette is fitted now? Its smallest and largest sprocket are enough.',
      choices: [
        { label: '11-32', setup: 'cassette=11-32' },
        { label: '11-34', setup: 'cassette=11-34' },
        { label: '11-36', setup: 'cassette=11-36' },
      ],
    });
  }
  return asks;
}

function wheelQuestion(bike: SettledBike): Question {
  const rim = bike.wheel?.kind === 'rim' ? ` on the ${bike.wheel.beadSeatMm} mm rim` : '';
  return {
    field: 'wheel',
    question: `Which tyre is on the rear wheel${rim}? Its size stands on its side; speeds need it.`,
    choices: [
      { label: '57-622', setup: 'wheel=57-622' },
      { label: '57-584', setup: 'wheel=57-584' },
      { label: '28-622', setup: 'wheel=28-622' },
    ],
  };
}

const NOT_LOOKED_AT: RingFit = {
  fit: 'check',
  reasons: ['whether it fits is not looked at here; ask convert or mount'],
};

/** Gears old against new, without asking what fits. */
export const gears: Command = {
  name: 'gears',
  summary: 'Gears now against one ring: lowest, highest, range, speed, and what each size gives up',
  keys: [
    'rings',
    'cassette',
    'speeds',
    'ring',
    'newcassette',
    'wheel',
    'terrain',
    'cadence',
    'crank',
    'capacity',
    'maxcog',
    'mincog',
    'power',
    'rider',
    'bikeweight',
    'ground',
    'bar',
    'assist',
    'tandem',
    'units',
  ],
  examples: [
    'rings=36/22 cassette=11-36 speeds=10 wheel=57-622 ring=32',
    '44/32/22 11-34 26er terrain=hills',
    '50/34 11-32 700x28 ring=42 crank=172.5mm',
  ],
  answer: (bike): Outcome => {
    const part = gearsPart(bike, () => NOT_LOOKED_AT);
    if (part.kind === 'cannot') {
      return {
        kind: 'asks',
        asks: part.asks,
        words: {
          answer: 'Tell the rings and the cassette fitted now, and gears old and new are worked out.',
          lines: ['For example: rings=36/22 cassette=11-36'],
          blocks: [],
        },
      };
    }
    const { facts, climb, trial, speaksOf } = part;
    const words = gearsWords(facts);
    const drive = driveParts(bike);
    const figure = gearsFigure(facts, trial?.avoid ?? []);
    const trialBlocks =
      trial === null || facts.ring === null
        ? []
        : trialWords({ ...trial, ringTeeth: facts.ring.teeth, sprockets: facts.sprocketsNow });
    return {
      kind: 'answered',
      answer: {
        ...(speaksOf === null ? {} : { speaksOf }),
        rings: part.options,
        now: facts.now,
        sprockets: part.sprockets,
        widerCassettes: facts.widerCassettes,
        ...(climb === null ? {} : { climb }),
        ...(trial === null ? {} : { trial }),
        ...drive.parts,
      },
      words: {
        answer: words.answer,
        lines: [...words.lines, 'Whether a ring fits was not looked at here: ask convert or mount.'],
        blocks: [
          ...drive.cautions,
          ...words.blocks,
          ...sprocketTable(facts),
          ...(figure === null ? [] : [figure]),
          ...trialBlocks,
          ...drive.notes,
        ],
      },
      assumed: part.assumed,
      asks: [...part.asks, ...drive.asks],
    };
  },
};
