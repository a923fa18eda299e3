import { parse } from 'node:querystring';
import { queryObjects, setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { webApi } from '@slack/bolt';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openPeople } from '../../adapters/slack/people.ts';
import type { Web } from '../../adapters/slack/ports.ts';
import { openRecords } from '../../adapters/storage/open.ts';
import { openDouble, signedRequest } from '../support/slack-double.ts';
import { openHouse } from '../support/slack-house.ts';
import { slash } from '../support/slack-payloads.ts';
import { openProgram } from '../support/slack-program.ts';
import { sqlite } from '../support/storages.ts';
import { neverRings } from '../support/timers.ts';
import { until } from '../support/until.ts';

let house: Awaited<ReturnType<typeof openHouse>>;
beforeAll(async () => {
  house = await openHouse();
});
afterAll(() => house.end());

setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as () => void;

/** What the heap holds that something still needs, in megabytes. */
function heldMb(): number {
  collect();
  return process.memoryUsage().heapUsed / 1024 / 1024;
}

describe('what is held when a payload is answered', () => {
  it('is no client of the workspace it came from', async () => {
    const storage = await sqlite();
    const records = await openRecords(await storage.fresh());
    const double = await openDouble();
    const { app, address } = await openProgram(double, records);
    const clients = () => queryObjects(webApi.WebClient, { format: 'count' });
    await until(() => double.platform.calls.some(({ method }) => method === 'auth.test'));
    const before = clients();
    for (let team = 0; team < 20; team += 1) {
      // Who asks is looked up with the token of their workspace.
      const payload = slash({ user: 'UANN', team: `T0${team}` }, 'settings show', double.newAddress());
      expect((await fetch(`${address}/slack/events`, signedRequest(payload))).status).toBe(200);
    }
    expect(double.platform.calls.filter(({ method }) => method === 'users.info')).toHaveLength(20);
    await until(() => clients() <= before);
    await app.close();
    await double.close();
    await records.close();
    await storage.end();
  });

  it('is its id, and not what was typed', async () => {
    const stage = await house.stage();
    const typed = 'x'.repeat(20_000);
    const trigger = '398738663015.47445629121.803a0bc887a14d10d2c4';
    const used = async (from: number, until: number) => {
      for (let count = from; count < until; count += 1) {
        const sent = { ...slash({ user: 'UANN' }, typed, 'https://slack.test/'), trigger_id: `${trigger}${count}` };
        // As the framework reads the body of a request.
        await stage.take({ ...parse(new URLSearchParams(sent as Record<string, string>).toString()) }, null);
      }
    };
    await used(0, 100);
    const before = heldMb();
    await used(100, 1100);
    // A thousand of these texts are 20 MB.
    expect(heldMb() - before).toBeLessThan(5);
  });

  it('is nobody whom nothing is believed of any more', async () => {
    let nowMs = 0;
    const people = openPeople(() => nowMs, neverRings);
    const web: Web = {
      call: (_, { user }) =>
        Promise.resolve({ ok: true, data: { user: { id: user, name: Buffer.alloc(12_000, 'x').toString() } } }),
      respond: () => Promise.resolve(true),
      send: () => Promise.resolve(true),
    };
    const name = (count: number) => people.names(`<@U${10_000 + count}>`, 'T1', web);
    await name(0);
    const before = heldMb();
    for (let count = 1; count <= 1000; count += 1) await name(count);
    // A thousand names of 12 kB each.
    expect(heldMb() - before).toBeGreaterThan(8);
    nowMs += 10 * 60_000;
    await name(0);
    expect(heldMb() - before).toBeLessThan(4);
  });
});
