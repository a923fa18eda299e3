import type { Question } from '../bike/reading.ts';
import type { GearRange } from '../solve/gears.ts';
import { stepsPct } from '../solve/gears.ts';
import type { RingOption } from '../solve/ring-options.ts';
import type { SprocketList } from '../solve/sprocket-list.ts';
import type { Block } from './card.ts';
import { climbLines } from './climb.ts';
import { type Ends, endsText, type GearsFacts, lowestWords } from './gears-facts.ts';
import { gearsWorking } from './gears-working.ts';
import { change, plain, ratio, speed } from './measures.ts';
import { widerActions, widerLine, widerLines } from './wider-cassette.ts';

const IN_SENTENCE = { hills: 'in hills', rolling: 'on rolling ground', flat: 'on the flat' } as const;
const TERRAIN_WORDS = { hills: 'In hills', rolling: 'On rolling ground', flat: 'On the flat' } as const;

/** The gears section in words: one answer line, the facts that matter most, and the blocks behind them. */
export function gearsWords(facts: GearsFacts): {
  readonly answer: string;
  readonly lines: readonly string[];
  readonly blocks: readonly Block[];
} {
  return { answer: answerLine(facts), lines: shortLines(facts), blocks: gearsBlocks(facts) };
}

/** "top gear 11 % slower". */
export function highestWords(pct: number): string {
  const whole = Math.round(pct);
  if (whole === 0) return 'top gear as now';
  return whole > 0 ? `top gear ${whole} % faster` : `top gear ${-whole} % slower`;
}

function tradeWords(option: RingOption): string {
  return `${lowestWords(option.lowestChangePct)}, ${highestWords(option.highestChangePct)}`;
}

function answerLine({ ring, wantedTeeth, cassetteThen, cassetteNow, rings, now }: GearsFacts): string {
  if (ring === null) {
    return `No single ring fits this bike as told. Now ${rings.join('/')} with ${endsText(cassetteNow)}: ${ratio(now.lowestRatio)} to ${ratio(now.highestRatio)}.`;
  }
  const trade = `${ring.teeth}T with ${endsText(cassetteThen)}: ${tradeWords(ring)}`;
  if (wantedTeeth === null || wantedTeeth === ring.teeth) {
    return `${trade}; range ${plain(ring.rangePct, 0)} %, now ${plain(now.rangePct, 0)} %.`;
  }
  return wantedTeeth % 2 === 0
    ? `${wantedTeeth}T does not fit. ${trade}.`
    : `${wantedTeeth}T is odd, so not narrow-wide. ${trade}.`;
}

function shortLines(facts: GearsFacts): string[] {
  const { ring, now, rings, cassetteNow, cadenceRpm } = facts;
  const lines = [
    `Now ${rings.join('/')} with ${endsText(cassetteNow)}: ${ratio(now.lowestRatio)} to ${ratio(now.highestRatio)}, range ${plain(now.rangePct, 0)} %.`,
  ];
  if (ring === null) return lines;
  const top = topWords(ring, now);
  if (top !== null) lines.push(`At ${plain(cadenceRpm, 1)} rpm ${top}`);
  const wider = widerLine(facts);
  if (wider !== null) lines.push(wider);
  return lines;
}

/** "32T spins out at 42.6 km/h (26.5 mph) instead of 51.1 km/h (31.8 mph)." */
export function topWords(option: RingOption, now: GearRange): string | null {
  if (option.highestSpeedKmh === null || now.highestSpeedKmh === null) return null;
  const then = speed(option.highestSpeedKmh);
  const before = speed(now.highestSpeedKmh);
  return then === before
    ? `${option.teeth}T spins out at ${then}, as now.`
    : `${option.teeth}T spins out at ${then} instead of ${before}.`;
}

/** The gears in blocks; a plan leaves the steps between sprockets to whoever asks for the gears alone. */
export function gearsBlocks(facts: GearsFacts, telling: 'all' | 'plan' = 'all'): Block[] {
  const blocks: Block[] = [gearsTable(facts)];
  // Of riveted rings no ring is weighed against another.
  const trade = tradeLines(facts);
  if (trade.length > 0) {
    const at = facts.wheel === null ? '' : `, at ${plain(facts.cadenceRpm, 1)} rpm`;
    blocks.push({ kind: 'text', section: 'gears', title: `What each ring gives up${at}`, lines: trade });
  }
  if (telling === 'all') {
    blocks.push({ kind: 'text', section: 'gears', title: 'Sprockets', lines: sprocketLines(facts) });
  }
  const wider = widerLines(facts);
  if (wider.length > 0) blocks.push({ kind: 'text', section: 'gears', title: 'Keeping the low gear', lines: wider });
  if (facts.climb !== null && facts.ring !== null) {
    const lines = climbLines(facts.climb, facts.ring.teeth, facts.cadenceRpm);
    blocks.push({ kind: 'text', section: 'gears', title: 'Climbing', lines });
  }
  blocks.push({ kind: 'text', section: 'gears', title: 'What would change it', lines: boundaryLines(facts) });
  const sizes = facts.shown
    .filter((option) => option.fit !== 'no' && option.teeth !== facts.ring?.teeth)
    .map((option) => ({ label: `${option.teeth}T`, setup: `ring=${option.teeth}` }));
  if (sizes.length > 0) blocks.push({ kind: 'actions', section: 'gears', title: 'Ring sizes', actions: sizes });
  const cassettes = widerActions(facts);
  if (cassettes.length > 0) blocks.push({ kind: 'actions', section: 'gears', title: 'Cassettes', actions: cassettes });
  blocks.push({ kind: 'working', section: 'gears', steps: gearsWorking(facts) });
  return blocks;
}

function gearsTable(facts: GearsFacts): Block {
  const { now, cassetteNow, cassetteThen } = facts;
  const columns = ['Ring', 'Lowest', 'Highest', 'Range'];
  const nowRow = [
    `Now ${facts.rings.join('/')}`,
    ratio(now.lowestRatio),
    ratio(now.highestRatio),
    `${plain(now.rangePct, 0)} %`,
  ];
  const nowSpeeds = speedSpan(now);
  if (nowSpeeds !== null) {
    columns.push(`km/h, ${plain(facts.cadenceRpm, 0)} rpm`);
    nowRow.push(nowSpeeds);
  }
  const rows = [nowRow];
  for (const option of facts.shown) {
    const row = [
      ringName(option),
      `${ratio(option.lowestRatio)} (${change(option.lowestChangePct)})`,
      `${ratio(option.highestRatio)} (${change(option.highestChangePct)})`,
      `${plain(option.rangePct, 0)} %`,
    ];
    const speeds = speedSpan(option);
    if (speeds !== null) row.push(speeds);
    rows.push(row);
  }
  const title =
    endsText(cassetteNow) === endsText(cassetteThen)
      ? `Gears with ${endsText(cassetteNow)}`
      : `Gears: now with ${endsText(cassetteNow)}, one ring with ${endsText(cassetteThen)}`;
  return { kind: 'table', section: 'gears', title, columns, rows };
}

function ringName(option: RingOption): string {
  if (option.fit === 'no') return `${option.teeth}T (no)`;
  return option.fit === 'check' ? `${option.teeth}T (check)` : `${option.teeth}T`;
}

function speedSpan({ lowestSpeedKmh, highestSpeedKmh }: GearRange): string | null {
  if (lowestSpeedKmh === null || highestSpeedKmh === null) return null;
  return `${lowestSpeedKmh.toFixed(1)}–${highestSpeedKmh.toFixed(1)}`;
}

function tradeLines(facts: GearsFacts): string[] {
  const lines: string[] = [];
  const shared = sharedReasons(facts.shown);
  for (const option of facts.shown) {
    const { teeth } = option;
    const reasons = option.reasons.filter((reason) => !shared.includes(reason));
    if (option.fit === 'no') {
      for (const reason of reasons) lines.push(`${teeth}T, no: ${reason.replace(`${teeth}T: `, '')}.`);
      if (teeth % 2 !== 0)
        lines.push(`${teeth}T: plain rings of this size exist, but do not hold the chain by their teeth.`);
      continue;
    }
    const mark = option.recommended ? ' (recommended)' : teeth === facts.wantedTeeth ? ' (your choice)' : '';
    const top = option.highestSpeedKmh === null ? '' : `, ${speed(option.highestSpeedKmh)}`;
    lines.push(`${teeth}T${mark}: ${tradeWords(option)}${top}.`);
    for (const reason of reasons) lines.push(`${teeth}T${option.fit === 'check' ? ', check' : ''}: ${reason}.`);
  }
  for (const reason of shared) lines.push(`Every ring: ${reason}.`);
  if (facts.ring !== null) lines.push(keptRange(facts.ring, facts.now));
  return lines;
}

/** "Any one ring keeps half the range: 309 % instead of 618 %." */
function keptRange(ring: GearRange, now: GearRange): string {
  const kept = Math.round((ring.rangePct / now.rangePct) * 100);
  const share = kept === 50 ? 'half the range' : `${kept} % of the range`;
  return `Any one ring keeps ${share}: ${plain(ring.rangePct, 0)} % instead of ${plain(now.rangePct, 0)} %.`;
}

/** Reasons that stand against every even ring alike are told once. */
function sharedReasons(shown: readonly RingOption[]): readonly string[] {
  const even = shown.filter((option) => option.teeth % 2 === 0);
  if (even.length < 2) return [];
  return even[0]?.reasons.filter((reason) => even.every((option) => option.reasons.includes(reason))) ?? [];
}

function sprocketLines(facts: GearsFacts): string[] {
  const lines = listLines('Now', facts.cassetteNow, facts.sprocketsNow);
  if (facts.sprocketsThen !== facts.sprocketsNow) {
    lines.push(...listLines('Then', facts.cassetteThen, facts.sprocketsThen));
  }
  return lines;
}

function listLines(when: string, ends: Ends, list: SprocketList): string[] {
  if (list.kind === 'cannot') {
    return list.reason === 'speeds-unknown'
      ? [`${when} ${endsText(ends)}: the ends are enough here; add speeds=10 (your count) for every gear.`]
      : [`${when} ${endsText(ends)}: so many sprockets do not fit between these ends; count them again.`];
  }
  const steps = stepsPct(list.sprockets);
  const widest = steps.indexOf(Math.max(...steps));
  const from = `from ${list.sprockets[widest]} to ${list.sprockets[widest + 1]} teeth`;
  const lines = [`${when} ${list.sprockets.join('-')}.`];
  if (list.from !== 'told') lines.push(LIST_GROUNDS[list.from]);
  lines.push(`Steps of ${plain(Math.min(...steps), 0)} to ${plain(Math.max(...steps), 0)} %, the widest ${from}.`);
  return lines;
}

const LIST_GROUNDS = {
  published: 'A printed list for these ends, assumed to be yours; count to be sure.',
  memory: 'A usual list for these ends, from memory; count yours.',
  plausible: 'An assumed list, spread evenly between the ends; count yours.',
} as const;

function boundaryLines(facts: GearsFacts): string[] {
  const { keeps, ring, wheel } = facts;
  const lines =
    keeps.lowestTeeth === keeps.highestTeeth
      ? [`${keeps.lowestTeeth}T keeps both the lowest and the highest gear.`]
      : keeps.lowestTeeth > keeps.highestTeeth
        ? [`Rings from ${keeps.highestTeeth}T to ${keeps.lowestTeeth}T keep both the lowest and the highest gear.`]
        : [
            `The lowest gear stays with ${keeps.lowestTeeth}T or smaller, the highest with ${keeps.highestTeeth}T or larger.`,
          ];
  if (facts.alike !== null) {
    const { smallestTeeth, largestTeeth } = facts.alike;
    lines.push(
      `${smallestTeeth}T to ${largestTeeth}T give up the same in sum ${IN_SENTENCE[facts.terrain]}; the smallest is named.`,
    );
  }
  for (const terrain of ['hills', 'rolling', 'flat'] as const) {
    const teeth = facts.byTerrain[terrain];
    if (teeth === null || terrain === facts.terrain || teeth === facts.byTerrain[facts.terrain]) continue;
    lines.push(`${TERRAIN_WORDS[terrain]} ${teeth}T gives up least.`);
  }
  if (ring !== null && ring.highestSpeedKmh !== null) {
    const more = (ring.highestSpeedKmh * 10) / facts.cadenceRpm;
    lines.push(`Ten turns a minute more add ${speed(more)} at the top of ${ring.teeth}T.`);
  }
  if (wheel === null) lines.push('Speeds need the rear wheel: add wheel=57-622 (as printed on your tyre).');
  else if (wheel.widthRangeMm !== null)
    lines.push(`Speeds rest on an assumed tyre of ${wheel.widthMm} mm: read yours.`);
  else if (wheel.from === 'formula' && wheel.beadSeatMm !== null && wheel.beadSeatMm < 500) {
    lines.push('On small wheels the formula reads 2 to 5 % high: roll the wheel out and measure.');
  }
  return lines;
}

/** Asked where it settles which ring: on rolling ground most sizes between the old rings give up the same in sum. */
export function terrainQuestion({ alike }: GearsFacts): Question | null {
  if (alike === null) return null;
  return {
    field: 'terrain',
    question: `${alike.smallestTeeth}T to ${alike.largestTeeth}T all give up the same in sum. What do you ride most?`,
    choices: [
      { label: 'Hills', setup: 'terrain=hills' },
      { label: 'A bit of all', setup: 'terrain=rolling' },
      { label: 'The flat', setup: 'terrain=flat' },
    ],
  };
}
