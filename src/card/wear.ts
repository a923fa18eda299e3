import type { WearPart } from '../commands/answer.ts';
import type { WearVerdict } from '../solve/chain-wear.ts';
import { elongationMm, wearPctOfLength } from '../solve/chain-wear.ts';
import { SPROCKET_GEOMETRY } from '../tables/sprocket-geometry.ts';
import { UNIT_FACTORS } from '../tables/unit-factors.ts';
import { WEAR_LIMITS, WEAR_MARKS } from '../tables/wear-limits.ts';
import { shortSource } from './basis.ts';
import type { Block, CautionBlock, TableBlock, TextBlock } from './card.ts';
import { plain } from './measures.ts';

const OVER = WEAR_MARKS.measuredOver.value;
const NEW_MM = OVER * SPROCKET_GEOMETRY.pitch.value;
const SOURCE = shortSource(WEAR_MARKS.measuredOver);
const CASSETTE_TOO = WEAR_MARKS.cassetteToo.value;
const [TO_TEN, FROM_ELEVEN] = WEAR_LIMITS;

/** What a ruler shows at a sixteenth and at an eighth of an inch over twelve inches. */
function rulerPct(sixteenths: number): string {
  return plain(wearPctOfLength((12 + sixteenths / 16) * UNIT_FACTORS.mmPerInch.factor), 2);
}

const HOW_TO: TextBlock = {
  kind: 'text',
  section: 'wear',
  title: 'How to measure',
  lines: [
    `Pull it tight, measure ${OVER} pitches pin to pin: ${plain(NEW_MM, 1)} mm (12 in) when new.`,
    'Not across the joining link: it wears at its own pace.',
    'Measure in two or three places and believe the longest.',
    `On an inch ruler 12 1/16 in is ${rulerPct(1)} %, 12 1/8 in is ${rulerPct(2)} %.`,
  ],
};

function lengthRow(wearPct: number, due: string): readonly string[] {
  const longer = elongationMm(wearPct);
  return [`${wearPct} %`, `${plain(longer, 2)} mm`, `${plain(NEW_MM + longer, 1)} mm`, due];
}

const LENGTHS: TableBlock = {
  kind: 'table',
  section: 'wear',
  title: `Over ${OVER} pitches (12 in)`,
  columns: ['Wear', 'Longer by', 'Length', 'Due'],
  rows: [
    lengthRow(FROM_ELEVEN.replaceAtPct, '11-speed on'),
    lengthRow(TO_TEN.replaceAtPct, 'to 10-speed'),
    lengthRow(CASSETTE_TOO, 'sprockets too'),
  ],
};

const LIMITS: TextBlock = {
  kind: 'text',
  section: 'wear',
  title: 'When it is due',
  lines: [
    `Up to 10-speed at ${TO_TEN.replaceAtPct} %, 11- and 12-speed at ${FROM_ELEVEN.replaceAtPct} %.`,
    `13-speed: nothing printed was found; the stricter ${FROM_ELEVEN.replaceAtPct} % is taken (from memory).`,
    `Over ${CASSETTE_TOO} % cassette and rings are likely worn too.`,
    'A new narrow-wide ring wants a new chain.',
  ],
};

const SKIPPING: CautionBlock = {
  kind: 'caution',
  section: 'wear',
  level: 'care',
  text:
    'A new chain on worn sprockets can jump under load and throw you. Try it gently away from traffic; ' +
    'if it jumps, do not ride on it: change the cassette or ring first.',
};

const NEXT_WORDS: Readonly<Record<WearVerdict, string>> = {
  'ride-on': 'ride on and measure again in a few weeks',
  'replace-chain': 'replace the chain',
  'replace-chain-check-cassette': 'replace the chain; cassette and rings are likely worn too',
};

/** The verdict in one line, or what is missing for one. */
export function wearHeadline(part: WearPart): string {
  const speeds = part.speeds === null ? '' : ` at ${part.speeds}-speed`;
  if (part.wearPct === null) {
    return part.replaceAtPct === null
      ? `Measure the chain: it is due at ${TO_TEN.replaceAtPct} % up to 10-speed, at ${FROM_ELEVEN.replaceAtPct} % from 11-speed.`
      : `Measure the chain: it is due at ${part.replaceAtPct} %${speeds}.`;
  }
  const wear = `${plain(part.wearPct, 2)} % worn`;
  if (part.verdict === null) {
    return `${wear}: due from 11-speed on, not yet up to 10-speed. How many sprockets has it?`;
  }
  if (part.verdict === 'ride-on' && part.replaceAtPct !== null) {
    return `${wear}: ride on. It is due at ${part.replaceAtPct} %${speeds}.`;
  }
  return `${wear}: ${NEXT_WORDS[part.verdict]}.`;
}

/** The few facts that matter most. */
export function wearLines(part: WearPart): readonly string[] {
  if (part.wearPct === null) return [`${OVER} pitches are ${plain(NEW_MM, 1)} mm (12 in) when new.`];
  const longer = plain(elongationMm(part.wearPct), 1);
  const lines = [`${plain(part.wearPct, 2)} % is ${longer} mm longer over ${OVER} pitches (12 in).`];
  if (part.replaceAtPct === null) {
    lines.push(`Due at ${TO_TEN.replaceAtPct} % up to 10-speed, at ${FROM_ELEVEN.replaceAtPct} % from 11-speed.`);
  } else if (part.speeds !== null) {
    lines.push(`At ${part.speeds}-speed a chain is due at ${part.replaceAtPct} %.`);
  }
  return lines;
}

/** Everything about wear, caution first where a new chain may meet old teeth. */
export function wearBlocks(part: WearPart): readonly Block[] {
  const blocks: Block[] = part.verdict === 'ride-on' || part.wearPct === null ? [] : [SKIPPING];
  blocks.push(HOW_TO, LENGTHS, LIMITS);
  if (part.wearPct !== null) {
    blocks.push({
      kind: 'working',
      section: 'wear',
      steps: [
        {
          quantity: `Lengthening over ${OVER} pitches`,
          formula: 'e = 24p · wear/100',
          numbers: `${plain(NEW_MM, 1)} × ${plain(part.wearPct, 2)}/100`,
          result: `${plain(elongationMm(part.wearPct), 2)} mm`,
          source: SOURCE,
        },
      ],
    });
  }
  return blocks;
}
