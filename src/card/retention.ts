import type { SettledBike } from '../bike/settled.ts';
import type { RetentionPart } from '../commands/answer.ts';
import { RETENTION, TOOTH_FILL } from '../tables/retention.ts';
import { SOURCES } from '../tables/sources.ts';
import type { Block, TextBlock } from './card.ts';

const RULE_SOURCE = SOURCES[RETENTION.smooth.cite.source];

const GROUND_WORDS = {
  smooth: 'smooth ground',
  mixed: 'gravel and moderate trails',
  rough: 'rough ground',
} as const satisfies Record<NonNullable<RetentionPart['ground']>, string>;

const SIGNS: TextBlock = {
  kind: 'text',
  section: 'retention',
  title: 'If it drops all the same',
  lines: [
    'Outwards, or in small sprockets, look in this order: clutch lever off, chain too long, ring with ramps, worn chain or ring, loose ring, no guide.',
    'Inwards, or pedalling back in the lowest gear: the ring sits too far out.',
  ],
};

function addWords(part: RetentionPart): string {
  const open = (['clutch', 'guide'] as const).filter((each) => !part.fitted.includes(each));
  const named = open.map((each) => (each === 'clutch' ? 'a derailleur with a clutch' : 'a chain guide'));
  return named.join(part.missing === 2 ? ' and ' : ' or ');
}

/** What keeps the chain on, in a line or three. */
function retentionLines(part: RetentionPart): readonly string[] {
  const fitted = part.fitted.join(', ');
  const lines: string[] = [];
  if (part.ground === null || part.missing === null) {
    lines.push(
      `Keeping the chain on: ${fitted}.`,
      `Smooth ground asks for ${part.needed.smooth} of ring, clutch and guide, mixed ${part.needed.mixed}, rough ${part.needed.rough}.`,
    );
  } else if (part.missing === 0) {
    lines.push(`For ${GROUND_WORDS[part.ground]}: ${fitted}. By the riders' rule that is enough.`);
  } else {
    lines.push(`For ${GROUND_WORDS[part.ground]} ${part.missing} more: ${addWords(part)}.`);
  }
  if (part.unknown.length > 0) lines.push(`Not told, so counted as none: ${part.unknown.join(' and ')}.`);
  return lines;
}

/** Everything about keeping the chain on. */
export function retentionBlocks(part: RetentionPart, bike: SettledBike): readonly Block[] {
  const lines = [...retentionLines(part), 'A rule of riders and no promise: clay mud still lifts chains.'];
  if (part.unknown.includes('clutch')) {
    lines.push('A clutch is a small lever on the derailleur; when it is on, the cage resists a push forwards.');
  }
  const wide = bike.speeds !== undefined && bike.speeds <= TOOTH_FILL.wideChainToSpeeds;
  if (wide) {
    lines.push(
      `A chain for ${bike.speeds} sprockets rides loose on most narrow-wide teeth: get a ring made for it, or add a guide.`,
    );
  }
  const needed = part.ground === null ? 'smooth 1, mixed 2, rough 3' : `${part.needed[part.ground]} for ${part.ground}`;
  return [
    { kind: 'text', section: 'retention', title: 'Ring, clutch, guide', lines },
    SIGNS,
    {
      kind: 'working',
      section: 'retention',
      steps: [
        {
          quantity: 'What keeps the chain on',
          formula: 'of ring, clutch and guide: smooth 1, mixed 2, rough 3',
          numbers: `fitted ${part.fitted.length}, needed ${needed}`,
          result: part.missing === null ? 'tell the ground' : `${part.missing} missing`,
          source: RULE_SOURCE,
        },
        {
          quantity: 'Why the ring holds',
          formula: 'tooth width against the room in the link',
          numbers: `over ${TOOTH_FILL.sharePct} %`,
          result: wide ? 'less with this wider chain' : 'with a chain of the right width',
          source: SOURCES[TOOTH_FILL.cite.source],
        },
      ],
    },
  ];
}
