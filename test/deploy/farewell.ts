import { OURS as DISCORD } from '../../adapters/discord/limits.ts';
import { OURS as SLACK } from '../../adapters/slack/limits.ts';

/** After the work that was begun, pictures and records are let go: another second or two on a busy machine. */
const LETTING_GO_S = 2;

/** How long a program may need to end, at the most. */
export const FAREWELL_S = Math.max(DISCORD.farewellMs, SLACK.farewellMs) / 1000 + LETTING_GO_S;

const UNIT_S: Readonly<Record<string, number>> = { s: 1, sec: 1, m: 60, min: 60, h: 3600 };

/** "20s" and "5min" in seconds; not a number where it is neither. */
export function seconds(text: string): number {
  const [, amount, unit = 's'] = /^(\d+)\s*([a-z]+)?$/.exec(text) ?? [];
  return amount === undefined ? Number.NaN : Number(amount) * (UNIT_S[unit] ?? Number.NaN);
}
