import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openGateway } from '../../adapters/discord/gateway.ts';
import { type Double, openDouble } from '../support/discord-double.ts';
import { ANN, BOB, slash, submit } from '../support/discord-payloads.ts';
import { openHeldStage, openStage, type Stage, shown } from '../support/discord-stage.ts';
import { portsOf, TRANSPORTS } from '../support/discord-transports.ts';
import { openTroubledProxy } from '../support/troubled-proxy.ts';
import { until } from '../support/until.ts';

let stage: Stage;
let double: Double;
beforeEach(async () => {
  stage = await openStage();
  double = await openDouble();
});
afterEach(async () => {
  await double.close();
  await stage.end();
});

describe('the gateway', () => {
  it('is joined without a single intent: answering needs none', async () => {
    const line = await TRANSPORTS.gateway(stage, double);
    expect(double.sessions).toEqual([{ shard: [0, 1], intents: 0, token: 'a-made-up-token-of-a-bot', resumed: false }]);
    await line.close();
  });

  it('is joined with the shards of this machine, and each answers its own', async () => {
    const settings = { api: double.api, token: 'a-made-up-token-of-a-bot', shards: [1, 3], shardCount: 4 };
    const open = await openGateway(settings, portsOf(stage, double));
    await until(() => double.sessions.length === 2);
    expect(double.sessions.map(({ shard }) => shard).sort()).toEqual([
      [1, 4],
      [3, 4],
    ]);
    const one = slash(ANN, 'help');
    const three = slash(BOB, 'help');
    double.dispatch(one, 1);
    double.dispatch(three, 3);
    await until(() => double.sentFor(one).length === 1 && double.sentFor(three).length === 1);
    await open.close();
  });

  it('is gone on with after a break, and answers as before', async () => {
    const line = await TRANSPORTS.gateway(stage, double);
    double.drop(4000);
    await until(() => double.sessions.some(({ resumed }) => resumed));
    const [first] = await line.say(slash(ANN, 'convert', { setup: '36/22 11-36 104bcd' }));
    expect(first && shown(first).content).toMatch(/^32T/);
    await line.close();
  });

  it('that lets nobody back in, because the token was taken back, ends the program', async () => {
    const line = await TRANSPORTS.gateway(stage, double);
    double.drop(4004);
    await until(() => stage.lines.some(({ text }) => text === 'told to end'));
    await line.close();
  });

  it('that tells the same interaction twice has it answered once', async () => {
    const line = await TRANSPORTS.gateway(stage, double);
    const payload = slash(ANN, 'help');
    await line.say(payload);
    await line.say(payload);
    expect(double.sentFor(payload).length).toBe(1);
    await line.close();
  });

  it.each([
    [404, 10062, 'an answer came too late'],
    [400, 40060, 'an interaction was answered by somebody else'],
    [401, 50027, 'an answer came after its time'],
  ])(
    'that refuses an answer with %i and %i leaves a calm line in the log, and the next one is answered',
    async (status, code, text) => {
      const line = await TRANSPORTS.gateway(stage, double);
      double.refuse('/interactions/', status, code);
      line.send(slash(ANN, 'help'));
      await until(() => stage.lines.some((each) => each.text === text));
      expect(stage.lines.filter(({ level }) => level === 'error')).toEqual([]);
      await line.say(slash(BOB, 'help'));
      await line.close();
    },
  );

  it('that took a first answer and was cut off is told the rest all the same', async () => {
    const slow = await openHeldStage();
    const proxy = await openTroubledProxy(double.api);
    const line = await TRANSPORTS.gateway(slow, { ...double, api: `${proxy.origin}/api` });
    let cuts = 2;
    proxy.meet((path) => {
      if (!path.endsWith('/callback') || cuts === 0) return null;
      cuts -= 1;
      return { kind: 'cut', when: cuts === 1 ? 'before' : 'after' };
    });
    const payload = submit(ANN, '1|tell|convert', { setup: '36/22 11-36 104bcd' });
    await line.say(payload);
    slow.release();
    await until(() => double.sentFor(payload).length === 2);
    expect(double.sentFor(payload).map(({ kind }) => kind)).toEqual(['first', 'edit']);
    expect(cuts).toBe(0);
    expect(slow.lines.filter(({ level }) => level === 'error')).toEqual([]);
    await line.close();
    await proxy.close();
    await slow.end();
  });

  it('that tells what nobody can read is not left for it, and the next one is answered', async () => {
    const line = await TRANSPORTS.gateway(stage, double);
    const { id, token, application_id } = slash(ANN, 'help');
    const strange: unknown[] = [null, [], 5, {}, { id, token, application_id, type: 2 }];
    strange.push({ id, token, application_id, type: 5, data: { custom_id: 'x', components: [] } });
    strange.push({ id, token, application_id, type: 99 });
    for (const payload of strange) double.dispatch(payload as ReturnType<typeof slash>);
    const [first] = await line.say(slash(BOB, 'help'));
    expect(first?.body).toMatchObject({ type: 4 });
    expect(stage.lines.filter(({ level }) => level === 'error')).toEqual([]);
    await line.close();
  });

  it('that refuses a body is noted as a fault, without the body and without the token', async () => {
    const line = await TRANSPORTS.gateway(stage, double);
    double.refuse('/interactions/', 400, 50035);
    line.send(slash(ANN, 'convert', { setup: '36/22 my-secret-words' }));
    await until(() => stage.lines.some(({ level }) => level === 'error'));
    expect(JSON.stringify(stage.lines)).not.toMatch(/my-secret-words|token-/);
    await line.close();
  });

  it('is left in good order: nothing more is taken, and what has begun is finished first', async () => {
    const slow = await openHeldStage();
    const line = await TRANSPORTS.gateway(slow, double);
    const payload = submit(ANN, '1|tell|convert', { setup: '36/22 11-36 104bcd' });
    const [announced] = await line.say(payload);
    expect(announced?.body.type).toBe(5);
    const closing = line.close();
    await until(() => double.connections() === 0);
    const late = slash(BOB, 'help');
    double.dispatch(late);
    slow.release();
    await closing;
    expect(double.sentFor(payload).map(({ kind }) => kind)).toEqual(['first', 'edit']);
    expect(double.sentFor(late)).toEqual([]);
    await slow.end();
  });
});
