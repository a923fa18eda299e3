import { describe, expect, it } from 'vitest';
import { measureDiscordHttp } from './discord-http.ts';
import { measureGateway } from './gateway.ts';
import { measureProcesses } from './processes.ts';
import { SHORT } from './rounds.ts';
import { measureSlackHttp } from './slack-http.ts';
import { tableOf } from './table.ts';

const ASKED = SHORT.rounds * SHORT.each;

// No time is looked at here: what a benchmark says counts only on a quiet machine.
describe('the short form of the benchmark', () => {
  it.each([
    ['over HTTP on Discord', measureDiscordHttp],
    ['over HTTP on Slack', measureSlackHttp],
    ['at the gateway', measureGateway],
  ])('%s has as many answers as questions, as long as those of the bare side', async (_, measure) => {
    const rows = await measure(SHORT);
    const [inFile, onServer] = rows;
    for (const { asked, oursUs = 0, bareUs = 0, oursBytes = 0, bareBytes = 0 } of [inFile ?? {}, onServer ?? {}]) {
      expect(asked).toBe(ASKED);
      expect(oursBytes / ASKED).toBeGreaterThan(3000);
      expect(Math.abs(oursBytes / bareBytes - 1)).toBeLessThan(0.05);
      expect(Math.min(oursUs, bareUs)).toBeGreaterThan(0);
    }
    expect(rows.every(({ ratio }) => ratio > 0)).toBe(true);
  });

  it('with two processes has an answer for every question, from ours and from bare ones', async () => {
    const rows = await measureProcesses(SHORT);
    expect(rows.map(({ asked, answered }) => [asked, answered])).toEqual([
      [2 * ASKED, 2 * ASKED],
      [2 * ASKED, 2 * ASKED],
    ]);
    for (const { one, two, serversUs } of rows) expect(Math.min(one, two, serversUs)).toBeGreaterThan(0);
  });
});

describe('the table of benchmarks', () => {
  const row = { what: 'a', measured: '3 µs', baseline: '2 µs', limitedBy: 'nothing' };

  it('says whether a ratio meets its goal, from above or from below', () => {
    const rows = [
      { ...row, ratio: 1.5, goal: 1.6 },
      { ...row, ratio: 1.7, goal: 1.6 },
      { ...row, ratio: 1.7, goal: 1.7, better: 'more' as const },
      { ...row, ratio: 1.6, goal: 1.7, better: 'more' as const },
      { ...row, ratio: 9, goal: null },
    ];
    const verdicts = tableOf(rows)
      .split('\n')
      .slice(2)
      .map((line) => line.split('|')[6]?.trim());
    expect(verdicts).toEqual(['met', 'MISSED', 'met', 'MISSED', '']);
  });
});
