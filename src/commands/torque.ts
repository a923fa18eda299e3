import type { Bike } from '../bike/bike.ts';
import type { Assumption, Question, Refusal } from '../bike/reading.ts';
import type { SettledBike } from '../bike/settled.ts';
import { shortSource, sourceWords } from '../card/basis.ts';
import type { Block, WorkingStep } from '../card/card.ts';
import {
  boltMaterialQuestion,
  CAUTION_WORDS,
  CONDITION_WORDS,
  crankTypeQuestion,
  elsewhereWords,
  jobChecklist,
  preloadStep,
  pullCells,
  safetyBlocks,
  torqueAnswer,
  torqueItem,
  torqueLines,
  wordsBehindRows,
} from '../card/torque.ts';
import { noLeverRefusal, wrenchBlocks, wrenchQuestion } from '../card/wrench.ts';
import { boltPreload } from '../solve/bolt-preload.ts';
import { rangesMeet, type TouchedStep, torqueInLbf, touchedSteps } from '../solve/torque.ts';
import { wrenchFactor } from '../solve/wrench-extension.ts';
import type { Row } from '../tables/row.ts';
import { TORQUES, type Torque, type TorqueStep } from '../tables/torques.ts';
import type { TorqueRow, WrenchPart } from './answer.ts';
import type { Command, Outcome } from './command.ts';
import { driveParts } from './drive-parts.ts';

type Item = { readonly text: string; readonly detail?: string };

/** A table row with everything said about it, as far as that hangs on no bike. */
type Prepared = {
  readonly sure: { readonly row: TorqueRow; readonly item: Item };
  readonly open: { readonly row: TorqueRow; readonly item: Item };
  readonly pull: readonly string[] | null;
  readonly working: WorkingStep | null;
};

// Worked out once: nothing in a row depends on the bike, and every answer shows a dozen of them.
const PREPARED = prepareAll(TORQUES);
const GOING_BACK = preparedOf('going-back').map((each) => each.sure.item);
const IF_LOOSENED = preparedOf('only-if-loosened').map((each) => each.sure.item);

function prepareAll(rows: readonly Row<Torque>[]): ReadonlyMap<TorqueStep, readonly Prepared[]> {
  const steps = new Map<TorqueStep, Prepared[]>();
  for (const row of rows) {
    const list = steps.get(row.step);
    if (list === undefined) steps.set(row.step, [prepare(row)]);
    else list.push(prepare(row));
  }
  return steps;
}

function prepare(torque: Row<Torque>): Prepared {
  const { lowNm, highNm } = torque;
  const pull = lowNm === null || highNm === null ? null : boltPreload({ lowNm, highNm, thread: torque.thread });
  const row: TorqueRow = {
    fastener: torque.fastener,
    material: torque.material,
    lowNm,
    highNm,
    lowInLbf: lowNm === null ? null : torqueInLbf(lowNm),
    highInLbf: highNm === null ? null : torqueInLbf(highNm),
    basis: torque.basis,
    source: sourceWords(torque),
    cautions: torque.cautions.map((caution) => CAUTION_WORDS[caution]),
    elsewhere: elsewhereWords(torque.elsewhere),
    preloadN:
      pull?.kind === 'found' && torque.thread !== null
        ? {
            lowN: pull.lowN,
            highN: pull.highN,
            proofSharePct: pull.shares.find((share) => share.propertyClass === '8.8')?.highPct ?? null,
            thread: torque.thread,
            shares: pull.shares,
          }
        : null,
  };
  const open: TorqueRow = { ...row, condition: CONDITION_WORDS[torque.step] };
  const apart =
    lowNm !== null && highNm !== null && torque.elsewhere.some((each) => !rangesMeet({ lowNm, highNm }, each));
  return {
    sure: { row, item: torqueItem(row, torque.elsewhere, apart, shortSource(torque)) },
    open: { row: open, item: torqueItem(open, torque.elsewhere, apart, shortSource(torque)) },
    pull: pullCells(row, torque.step),
    working: pull?.kind === 'found' ? preloadStep(row, pull.diameterMm) : null,
  };
}

function preparedOf(step: TorqueStep): readonly Prepared[] {
  return PREPARED.get(step) ?? [];
}

function stepsOf(bike: Bike): readonly TouchedStep[] {
  return touchedSteps({
    crankType: bike.crankType ?? null,
    mount: mountOf(bike),
    boltMaterial: bike.boltMaterial ?? null,
    bar: bike.bar ?? null,
    newCassette: bike.newCassette !== undefined,
    assist: bike.assist ?? null,
  });
}

/** A bolt circle, a bolt count or a measured gap is only ever told of a bolted ring. */
function mountOf(bike: Bike): 'bolted' | 'direct' | 'riveted' | null {
  if (bike.mount !== undefined) return bike.mount;
  const bolted = bike.bcdMm !== undefined || bike.bolts !== undefined || bike.gapsMm !== undefined;
  return bolted || bike.boltMaterial !== undefined ? 'bolted' : null;
}

/** The fasteners this job touches, in the order of the work; open possibilities carry their condition. */
export function torqueRows(bike: Bike): readonly TorqueRow[] {
  return stepsOf(bike).flatMap(({ step, certain }) =>
    preparedOf(step).map((each) => (certain ? each.sure.row : each.open.row)),
  );
}

/** The checklist of a plan: the fasteners of this job to tick off, nothing else. */
export function torqueChecklist(bike: Bike): Block {
  return jobChecklist(
    stepsOf(bike).flatMap(({ step, certain }) =>
      preparedOf(step).map((each) => (certain ? each.sure.item : each.open.item)),
    ),
  );
}

/** Everything about torque but the safety words: the checklist, the pull in the bolts and its working. */
function torqueBlocks(bike: Bike): readonly Block[] {
  const pulls: (readonly string[])[] = [];
  const steps: WorkingStep[] = [];
  for (const { step } of stepsOf(bike)) {
    for (const each of preparedOf(step)) {
      if (each.pull !== null) pulls.push(each.pull);
      if (each.working !== null) steps.push(each.working);
    }
  }
  const blocks: Block[] = [
    torqueChecklist(bike),
    ...wordsBehindRows({ pulls, goingBack: GOING_BACK, ifLoosened: IF_LOOSENED }),
  ];
  if (steps.length > 0) blocks.push({ kind: 'working', section: 'torque', steps });
  return blocks;
}

type Wrench =
  | { readonly kind: 'none' }
  | { readonly kind: 'asks'; readonly question: Question }
  | { readonly kind: 'refused'; readonly refusal: Refusal }
  | { readonly kind: 'found'; readonly part: WrenchPart; readonly assumed: readonly Assumption[] };

/** What to set on the rider's wrench with a crow-foot extension, for every row that has a range. */
function wrenchFor(bike: Bike, rows: readonly TorqueRow[]): Wrench {
  const { wrenchMm, extensionMm } = bike;
  if (extensionMm === undefined) return { kind: 'none' };
  if (wrenchMm === undefined) return { kind: 'asks', question: wrenchQuestion() };
  const angleDeg = bike.angleDeg ?? 0;
  const found = wrenchFactor({ wrenchMm, extensionMm, angleDeg });
  if (found.kind === 'cannot') return { kind: 'refused', refusal: noLeverRefusal(wrenchMm, extensionMm, angleDeg) };
  const { factor } = found;
  const settings = rows.flatMap(({ fastener, material, lowNm, highNm }) =>
    lowNm === null || highNm === null
      ? []
      : [
          {
            fastener,
            material,
            lowNm: lowNm * factor,
            highNm: highNm * factor,
            lowInLbf: torqueInLbf(lowNm * factor),
            highInLbf: torqueInLbf(highNm * factor),
          },
        ],
  );
  return {
    kind: 'found',
    part: { wrenchMm, extensionMm, angleDeg, factor, settings },
    assumed: bike.angleDeg === undefined ? [{ field: 'angle', value: 0, basis: 'not said: extension in line' }] : [],
  };
}

function answer(bike: SettledBike): Outcome {
  const rows = torqueRows(bike);
  const wrench = wrenchFor(bike, rows);
  if (wrench.kind === 'refused') return { kind: 'refused', refusal: wrench.refusal };
  const factor = wrench.kind === 'found' ? wrench.part.factor : null;
  const mount = mountOf(bike);
  const asks: Question[] = [];
  if (wrench.kind === 'asks') asks.push(wrench.question);
  const drive = driveParts(bike);
  asks.push(...drive.asks);
  const midDrive = bike.assist === 'mid-drive';
  if (bike.crankType === undefined && !midDrive) asks.push(crankTypeQuestion());
  if (bike.boltMaterial === undefined && mount !== 'direct' && mount !== 'riveted' && !midDrive)
    asks.push(boltMaterialQuestion());
  return {
    kind: 'answered',
    answer: { torque: rows, ...(wrench.kind === 'found' ? { wrench: wrench.part } : {}), ...drive.parts },
    words: {
      answer: torqueAnswer(rows, mount, midDrive),
      lines: torqueLines(rows, factor),
      blocks: [
        ...drive.cautions,
        ...torqueBlocks(bike),
        ...(wrench.kind === 'found' ? wrenchBlocks(wrench.part) : []),
        ...drive.notes,
        ...safetyBlocks(),
      ],
    },
    assumed: wrench.kind === 'found' ? wrench.assumed : [],
    asks,
  };
}

export const torque: Command = {
  name: 'torque',
  summary: 'A torque checklist for exactly the bolts this job touches, with cautions and your wrench setting',
  keys: [
    'cranktype',
    'boltmaterial',
    'mount',
    'bar',
    'newcassette',
    'wrench',
    'extension',
    'angle',
    'bcd',
    'bolts',
    'assist',
    'tandem',
  ],
  examples: [
    'cranktype=pinch boltmaterial=aluminium bar=flat',
    'cranktype=taper boltmaterial=steel',
    'cranktype=pinch wrench=300 extension=40 angle=90',
  ],
  answer,
};
