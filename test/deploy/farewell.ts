import { OURS as DISCORD } from '../../adapters/discord/limits.ts';
import { OURS as SLACK } from '../../adapters/slack/limits.ts';
import { fileText } from './repository.ts';

/** A program that cannot close everything ends all the same; the file that sees to it says when. */
const [, LONGEST_END_MS = ''] = /LONGEST_END_MS = ([\d_]+)/.exec(fileText('adapters/program/life.ts')) ?? [];

/** How long a program may need to end, at the most. */
export const FAREWELL_S =
  Math.max(DISCORD.farewellMs, SLACK.farewellMs, Number(LONGEST_END_MS.replaceAll('_', ''))) / 1000;

const UNIT_S: Readonly<Record<string, number>> = { s: 1, sec: 1, m: 60, min: 60, h: 3600 };

/** "20s" and "5min" in seconds; not a number where it is neither. */
export function seconds(text: string): number {
  const [, amount, unit = 's'] = /^(\d+)\s*([a-z]+)?$/.exec(text) ?? [];
  return amount === undefined ? Number.NaN : Number(amount) * (UNIT_S[unit] ?? Number.NaN);
}
