import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { EVENTS_PATH } from '../../adapters/slack/register.ts';
import { startPostgres } from '../support/postgres.ts';
import { openDouble, SIGNING_SECRET, signedRequest } from '../support/slack-double.ts';
import { slash } from '../support/slack-payloads.ts';
import { askAll, postRequest } from './requests.ts';
import { type Compared, compared, nearestToMean, type Side, type Size } from './rounds.ts';
import type { Row } from './row.ts';
import { type Served, startServed } from './served.ts';
import { nthSetup, SETUPS } from './setups.ts';

/** Goal of whoever ordered the program: processor time of a `convert` against that of the framework's bare answer. */
const GOAL_RATIO = 1.6;
const CONNECTIONS = 4;
/** So many that nobody asks faster than people may; most of them come back, as people do. */
const PLACES = 1000;
const PEOPLE = 4000;

let asked = 0;

/** Commands signed now: each by somebody of another workspace, about another bike. */
function commands(count: number): readonly Buffer[] {
  return Array.from({ length: count }, () => {
    asked += 1;
    const by = { user: `U${asked % PEOPLE}`, team: `T${asked % PLACES}` };
    const text = `convert ${nthSetup(asked)}`;
    const { headers, body } = signedRequest(slash(by, text, 'http://127.0.0.1:9/actions/1'));
    return postRequest(EVENTS_PATH, headers, body);
  });
}

function sideOf({ port, cpuUs }: Served): Side {
  return { cpuUs, ask: async (count) => (await askAll([port], commands(count), CONNECTIONS)).bytes };
}

/** The whole program over HTTP against the framework alone; both answer with the acknowledgement itself. */
export async function measureSlackHttp(size: Size): Promise<readonly (Row & Compared)[]> {
  const folder = mkdtempSync(join(tmpdir(), 'ringwright-bench-'));
  const postgres = await startPostgres();
  const double = await openDouble();
  try {
    return [
      await against('receipt in SQLite', double.api, { RINGWRIGHT_DATA: folder }, size),
      await against('receipt in PostgreSQL', double.api, { DATABASE_URL: await postgres.database() }, size),
    ];
  } finally {
    await double.close();
    await postgres.end();
    rmSync(folder, { recursive: true, force: true });
  }
}

async function against(
  where: string,
  api: string,
  records: Readonly<Record<string, string>>,
  size: Size,
): Promise<Row & Compared> {
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
  const found = await compared(sideOf(ours), sideOf(bare), size);
  await Promise.all([ours.end(), bare.end()]);
  return {
    what: `Slack over HTTP, convert, ${where}`,
    measured: `${found.oursUs.toFixed(0)} µs`,
    baseline: `${found.bareUs.toFixed(0)} µs, framework's answer of ${Buffer.byteLength(reply)} bytes`,
    goal: GOAL_RATIO,
    limitedBy: 'the plan, then its receipt (written as JSON, packed, saved), then measuring blocks against the limits',
    ...found,
  };
}
