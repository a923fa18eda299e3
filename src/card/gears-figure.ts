import type { GearsFigure, LostEnd } from '../draw/figure.ts';
import { developmentM, gearRatio, speedKmh } from '../solve/gears.ts';
import type { LostGear } from '../solve/lost-gears.ts';
import type { RingOption } from '../solve/ring-options.ts';
import type { SprocketList } from '../solve/sprocket-list.ts';
import type { FigureBlock } from './card.ts';
import { type Ends, endsText, type GearsFacts } from './gears-facts.ts';
import { change, plain, ratio, speed } from './measures.ts';

/** The gears of today against each ring on offer; null where no ring is. `lost` are the gears that the ring gives up. */
export function gearsFigure(facts: GearsFacts, lost: readonly LostGear[]): FigureBlock | null {
  const { ring } = facts;
  if (ring === null || ring.fit === 'no') return null;
  const offered = facts.shown.filter((option) => option.fit !== 'no');
  const options = offered.some((option) => option.teeth === ring.teeth) ? offered : [...offered, ring];
  const before = sprocketsOf(facts.sprocketsNow, facts.cassetteNow);
  const after = sprocketsOf(facts.sprocketsThen, facts.cassetteThen);
  const { climb } = facts;
  const figure: GearsFigure = {
    kind: 'gears',
    cadenceRpm: facts.cadenceRpm,
    kmhPerRatio: facts.wheel === null ? null : speedKmh(developmentM(1, facts.wheel.circumferenceMm), facts.cadenceRpm),
    cassetteNow: endsText(facts.cassetteNow),
    cassetteThen: endsText(facts.cassetteThen),
    everyGear: facts.sprocketsNow.kind === 'found' && facts.sprocketsThen.kind === 'found',
    now: facts.rings.map((ringTeeth) => ({
      ringTeeth,
      gears: before.map((teeth) => ({ ratio: gearRatio(ringTeeth, teeth), lost: lostEnd(lost, ringTeeth, teeth) })),
    })),
    options: options.map((option) => ({
      teeth: option.teeth,
      mark: markOf(option, facts),
      lowestChangePct: option.lowestChangePct,
      highestChangePct: option.highestChangePct,
      ratios: after.map((teeth) => gearRatio(option.teeth, teeth)),
    })),
    ringTeeth: ring.teeth,
    climb:
      climb === null || climb.gradePct === null || climb.gradeNowPct === null
        ? null
        : { powerW: climb.powerW, nowPct: climb.gradeNowPct, thenPct: climb.gradePct },
  };
  return {
    kind: 'figure',
    section: 'gears',
    title: 'Gears now and with one ring',
    alt: altText(figure, facts),
    figure,
  };
}

function sprocketsOf(list: SprocketList, ends: Ends): readonly number[] {
  if (list.kind === 'found') return list.sprockets;
  return ends.smallestTeeth === ends.largestTeeth ? [ends.smallestTeeth] : [ends.smallestTeeth, ends.largestTeeth];
}

function lostEnd(lost: readonly LostGear[], ringTeeth: number, sprocketTeeth: number): LostEnd {
  for (const gear of lost) if (gear.ringTeeth === ringTeeth && gear.sprocketTeeth === sprocketTeeth) return gear.end;
  return null;
}

function markOf(option: RingOption, facts: GearsFacts): string {
  const chosen = option.recommended ? 'recommended' : option.teeth === facts.wantedTeeth ? 'your choice' : '';
  if (option.fit !== 'check') return chosen;
  return chosen === '' ? 'check the fit' : `${chosen}, check the fit`;
}

function altText(figure: GearsFigure, facts: GearsFacts): string {
  const span = (low: number, high: number) =>
    figure.kmhPerRatio === null
      ? `${ratio(low)} to ${ratio(high)}`
      : `${speed(low * figure.kmhPerRatio)} to ${speed(high * figure.kmhPerRatio)}`;
  const at = figure.kmhPerRatio === null ? 'Gear ratios' : `Gears at ${plain(figure.cadenceRpm, 1)} rpm`;
  const { now } = facts;
  const sentences = [
    `${at}. Now ${facts.rings.join('/')} with ${figure.cassetteNow}: ${span(now.lowestRatio, now.highestRatio)}.`,
    `One ring with ${figure.cassetteThen}:`,
    ...figure.options.map((option) => {
      const mark = option.mark === '' ? '' : ` (${option.mark})`;
      const [low, high] = [Math.min(...option.ratios), Math.max(...option.ratios)];
      return `${option.teeth}T${mark} ${span(low, high)}, lowest ${change(option.lowestChangePct)}, highest ${change(option.highestChangePct)}.`;
    }),
  ];
  const ends = figure.now.flatMap((each) => each.gears.map((gear) => gear.lost));
  const [low, high] = [ends.filter((end) => end === 'low').length, ends.filter((end) => end === 'high').length];
  sentences.push(
    low + high === 0
      ? `No gear is lost with ${figure.ringTeeth}T.`
      : `Of ${ends.length} gears ${low + high} ${low + high === 1 ? 'is' : 'are'} lost with ${figure.ringTeeth}T: ${low} low, ${high} high.`,
  );
  if (!figure.everyGear) sentences.push('Only the end gears are shown; the count of sprockets brings every gear.');
  if (figure.climb !== null) {
    const { powerW, nowPct, thenPct } = figure.climb;
    sentences.push(
      `Steepest at ${plain(powerW, 0)} W in the lowest gear: now ${plain(nowPct, 1)} %, with ${figure.ringTeeth}T ${plain(thenPct, 1)} %.`,
    );
  }
  return sentences.join(' ');
}
