import type { LostGear, LostSpan } from '../solve/lost-gears.ts';
import type { SprocketList } from '../solve/sprocket-list.ts';
import type { Block } from './card.ts';

/** The trial: two weeks on the bike as it is, without exactly the gears a single ring would take away. */
export function trialWords(trial: {
  readonly ringTeeth: number;
  readonly avoid: readonly LostGear[];
  readonly spans: readonly LostSpan[];
  readonly sprockets: SprocketList;
}): readonly Block[] {
  const { ringTeeth, avoid } = trial;
  if (avoid.length === 0) {
    const lines = [`${ringTeeth}T takes away neither your lowest nor your highest gears: nothing to leave out.`];
    return [{ kind: 'text', section: 'trial', title: 'Two weeks before you buy', lines }];
  }
  const lines = [`For two weeks, ride without exactly the gears that ${ringTeeth}T would take away:`];
  if (trial.sprockets.kind === 'found') {
    for (const end of ['low', 'high'] as const) lines.push(...gearLines(avoid, end));
    if (trial.sprockets.from !== 'told')
      lines.push('The sprockets are an assumed list: count yours and take the nearest.');
  } else {
    for (const span of trial.spans) lines.push(...spanLines(span));
  }
  lines.push(
    'Never missed one? Then the change costs you nothing you use.',
    'Missed the low ones? A smaller ring or a wider cassette.',
    'Missed the high ones? A larger ring.',
    'It is free, needs no tools, and can be undone at any time.',
  );
  return [{ kind: 'text', section: 'trial', title: 'Two weeks before you buy', lines }];
}

/** "22T ring: sprockets 36, 32, 28 (too low to keep)." One line a ring. */
function gearLines(avoid: readonly LostGear[], end: LostGear['end']): string[] {
  const lost = new Map<number, number[]>();
  for (const gear of avoid) {
    if (gear.end !== end) continue;
    const sprockets = lost.get(gear.ringTeeth);
    if (sprockets === undefined) lost.set(gear.ringTeeth, [gear.sprocketTeeth]);
    else sprockets.push(gear.sprocketTeeth);
  }
  const why = end === 'low' ? 'easier than its lowest' : 'faster than its highest';
  return [...lost].map(
    ([ring, sprockets]) =>
      `${ring}T ring: ${sprockets.length === 1 ? 'sprocket' : 'sprockets'} ${sprockets.join(', ')} (${why}).`,
  );
}

function spanLines({ ringTeeth, fromTeeth, toTeeth }: LostSpan): string[] {
  const lines: string[] = [];
  if (fromTeeth !== null)
    lines.push(`${ringTeeth}T ring: every sprocket of ${fromTeeth} teeth or more (easier than its lowest).`);
  if (toTeeth !== null)
    lines.push(`${ringTeeth}T ring: every sprocket of ${toTeeth} teeth or fewer (faster than its highest).`);
  return lines;
}
