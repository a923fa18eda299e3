import type { Desk } from '../../src/desk.ts';
import type { Reply } from '../../src/request.ts';
import { openStage } from '../support/discord-stage.ts';
import { neverRings } from '../support/timers.ts';
import type { Case } from './cases.ts';
import { lightRecords } from './light-records.ts';
import { openDiscord } from './on-discord.ts';
import { openSlack } from './on-slack.ts';
import { openTerminal } from './on-terminal.ts';

/** The whole product over storage of its own: a terminal, a server, a workspace. */
export type House = {
  /** Plays a case everywhere; throws where any rule is broken. */
  readonly play: (played: Case) => Promise<void>;
  readonly end: () => Promise<void>;
};

/** Every case comes a minute after the one before, so that nobody is too fast by accident. */
const STEP_MS = 60_000;
const NOON_MS = Date.UTC(2026, 10, 25, 12);

/** What a club has before anybody means harm: something to be named, changed, signed and taken away. */
const BEFORE: readonly Case['act'][] = [
  {
    kind: 'kept',
    command: 'bike',
    action: 'save',
    told: { name: 'winter', setup: '2x10 36/22 11-36 29er', share: 'yes' },
  },
  { kind: 'kept', command: 'answer', action: 'pin', told: { topic: 'hills', text: 'Take the 30.', aliases: 'climbs' } },
  { kind: 'kept', command: 'job', action: 'open', told: { setup: '2x10 36/22 11-36 104bcd cranktype=pinch' } },
];

/** `light` keeps receipts in memory only. */
export async function openHouse(light: boolean): Promise<House> {
  let now = NOON_MS;
  const pass = () => {
    now += STEP_MS;
    return now;
  };
  const heard: Reply[] = [];
  const listening = (desk: Desk): Desk => ({
    ask: async (asked) => {
      const reply = await desk.ask(asked);
      heard.push(reply);
      return reply;
    },
  });
  // Patience has no end here: what takes long is seen in the times, and not in another answer.
  const stage = await openStage({ nowMs: () => now, timer: neverRings, ...(light ? { records: lightRecords } : {}) });
  const players = [
    openTerminal(stage.ports.desk),
    openDiscord(stage, heard, listening, pass),
    openSlack(stage.ports.records, heard, listening),
  ];
  const play = async (played: Case): Promise<void> => {
    for (const player of players) await player(played);
    heard.length = 0;
  };
  for (const act of BEFORE) await play({ act, moderator: true, presses: [], typed: '' });
  return { play, end: stage.end };
}
