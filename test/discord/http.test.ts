import { connect } from 'node:net';
import { setTimeout as wait } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Http, openHttp } from '../../adapters/discord/http.ts';
import { OURS } from '../../adapters/discord/limits.ts';
import { type Double, openDouble } from '../support/discord-double.ts';
import { ANN, BOB, CEM, PING, slash, submit } from '../support/discord-payloads.ts';
import { openHeldStage, openStage, type Stage } from '../support/discord-stage.ts';
import { keys, portsOf, posted } from '../support/discord-transports.ts';

const { publicKey, sign } = keys();
const QUESTION = JSON.stringify(slash(ANN, 'convert', { setup: '36/22 11-36 104bcd' }));

let stage: Stage;
let double: Double;
let open: Http;
beforeAll(async () => {
  stage = await openStage();
  double = await openDouble();
  open = await openHttp({ host: '127.0.0.1', port: 0, publicKey }, portsOf(stage, double));
});
afterAll(async () => {
  await open.close();
  await double.close();
  await stage.end();
});

describe('a request', () => {
  it('that asks whether anybody is there is told so', async () => {
    const response = await posted(open.port, sign(JSON.stringify(PING)));
    expect(response.status).toBe(200);
    expect(response.headers.get('content-type')).toContain('application/json');
    expect(await response.json()).toEqual({ type: 1 });
  });

  it('with a question has the answer in its response', async () => {
    const response = await posted(open.port, sign(QUESTION));
    expect(await response.json()).toMatchObject({ type: 4, data: { flags: 64, allowed_mentions: { parse: [] } } });
  });

  it('that is sent again, word for word and signature for signature, is not answered again', async () => {
    const signed = sign(JSON.stringify(slash(BOB, 'help')));
    expect((await posted(open.port, signed)).status).toBe(200);
    expect((await posted(open.port, signed)).status).toBe(400);
  });

  it.each([
    ['with another body', { ...sign(QUESTION), body: QUESTION.replace('36/22', '44/22') }],
    ['with a body cut short', { ...sign(QUESTION), body: QUESTION.slice(0, -1) }],
    ['with another time', { ...sign(QUESTION), timestamp: String(Math.floor(Date.now() / 1000) + 1) }],
    ['with a signature of somebody else', { ...sign(QUESTION), signature: keys().sign(QUESTION).signature }],
    ['with half a signature', { ...sign(QUESTION), signature: sign(QUESTION).signature.slice(0, 64) }],
    ['with no signature', { ...sign(QUESTION), signature: '' }],
    ['with a time that is none', { ...sign(QUESTION), timestamp: 'now' }],
    ['signed long ago', sign(QUESTION, Date.now() - (OURS.signedWithinS + 5) * 1000)],
    ['signed far ahead', sign(QUESTION, Date.now() + (OURS.signedWithinS + 5) * 1000)],
  ])('%s is refused, and nothing is said of why', async (_, signed) => {
    const response = await posted(open.port, signed);
    expect(response.status).toBe(401);
    expect(await response.text()).toBe('');
  });

  it.each([
    ['no JSON', '{"type":2'],
    ['no interaction', '{"hello":1}'],
    ['a kind nobody knows', JSON.stringify({ ...slash(CEM, 'help'), type: 77 })],
  ])('signed, but with %s, is refused', async (_, body) => {
    expect((await posted(open.port, sign(body))).status).toBe(400);
  });

  it('to another path, or of another kind, finds nothing', async () => {
    expect((await posted(open.port, sign(QUESTION), '/')).status).toBe(404);
    expect((await posted(open.port, sign(QUESTION), '/interactions', 'GET')).status).toBe(405);
  });

  it('larger than any interaction is cut off before it is looked at', async () => {
    const response = await posted(open.port, sign('x'.repeat(OURS.bodyBytes + 1))).catch(() => null);
    expect(response?.status ?? 413).toBe(413);
  });

  it('that breaks off in the middle harms nobody', async () => {
    const socket = connect(open.port, '127.0.0.1');
    socket.write('POST /interactions HTTP/1.1\r\nHost: x\r\nContent-Length: 500\r\n\r\n{"type":');
    await wait(20);
    socket.destroy();
    expect((await posted(open.port, sign(JSON.stringify(PING)))).status).toBe(200);
    expect(stage.lines.filter(({ level }) => level === 'error')).toEqual([]);
  });
});

describe('an end', () => {
  it('waits for the answer that was announced', async () => {
    const slow = await openHeldStage();
    const other = await openHttp({ host: '127.0.0.1', port: 0, publicKey }, portsOf(slow, double));
    const payload = submit(ANN, '1|tell|convert', { setup: '36/22 11-36 104bcd' });
    const response = await posted(other.port, sign(JSON.stringify(payload)));
    expect(await response.json()).toEqual({ type: 5, data: { flags: 64 } });
    // The announcement may not be there yet when the answer follows: then it is tried again.
    double.refuse('/webhooks/', 404, 10015);
    const closing = other.close();
    slow.release();
    await closing;
    expect(double.sentFor(payload).map(({ kind }) => kind)).toEqual(['edit']);
    await slow.end();
  });
});
