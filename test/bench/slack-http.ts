import { EVENTS_PATH } from '../../adapters/slack/register.ts';
import { openDouble, SIGNING_SECRET, signedRequest } from '../support/slack-double.ts';
import { slash } from '../support/slack-payloads.ts';
import { againstBare, type Pair, pairOf } from './against-bare.ts';
import { askAll, postRequest } from './requests.ts';
import { type Compared, nearestToMean, type Side, type Size } from './rounds.ts';
import type { Row } from './row.ts';
import { type Served, startServed } from './served.ts';
import { SETUPS } from './setups.ts';
import { nextTurns } from './turns.ts';

const CONNECTIONS = 4;

/** Commands signed now. */
function commands(count: number): readonly Buffer[] {
  return nextTurns(count).map(({ person, place, setup }) => {
    const by = { user: `U${person}`, team: `T${place}` };
    const { headers, body } = signedRequest(slash(by, `convert ${setup}`, 'http://127.0.0.1:9/actions/1'));
    return postRequest(EVENTS_PATH, headers, body);
  });
}

function sideOf({ port, cpuUs }: Served): Side {
  return { cpuUs, ask: async (count) => (await askAll([port], commands(count), CONNECTIONS)).bytes };
}

/** The whole program over HTTP against the framework alone; both answer with the acknowledgement itself. */
export async function measureSlackHttp(size: Size): Promise<readonly (Row & Compared)[]> {
  const double = await openDouble();
  const way = {
    name: 'Slack over HTTP',
    bareReply: "framework's answer",
    limitedBy: 'the plan, then its receipt (written as JSON, packed, saved), then measuring blocks against the limits',
    start: (records: Readonly<Record<string, string>>) => start(double.api, records),
  };
  try {
    return await againstBare(way, size);
  } finally {
    await double.close();
  }
}

async function start(api: string, records: Readonly<Record<string, string>>): Promise<Pair> {
  const ours = await startServed('adapters/slack/main.ts', {
    SLACK_MODE: 'http',
    SLACK_PORT: '0',
    SLACK_API: api,
    SLACK_SIGNING_SECRET: SIGNING_SECRET,
    SLACK_BOT_TOKEN: 'xoxb-made-up',
    SLACK_PICTURES: 'off',
    ...records,
  });
  const replies: string[] = [];
  await askAll([ours.port], commands(SETUPS.length), 1, (body) => replies.push(body.toString('utf8')));
  const reply = nearestToMean(replies);
  const bare = await startServed('test/bench/bare-slack-http.ts', { BENCH_REPLY: reply });
  return pairOf(ours, bare, reply, sideOf);
}
