import { createServer } from 'node:http';
import { type AddressInfo, connect } from 'node:net';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openWatchPort, type Shown, type WatchPort } from '../../adapters/watch/port.ts';
import { type Readiness, readinessOf } from '../../adapters/watch/readiness.ts';
import type { Log } from '../../src/log.ts';

const HERE = { host: '127.0.0.1', port: 0 };
let readiness: Readiness;
let text: () => Promise<string>;
let lines: { level: string; data: object; text: string }[];
let open: WatchPort;

const line = (level: string) => (data: object, words: string) => void lines.push({ level, data, text: words });
const log: Log = { debug: line('debug'), info: line('info'), warn: line('warn'), error: line('error') };
const shown: Shown = { readiness: () => readiness, metrics: { text: () => text(), contentType: 'text/plain' } };

beforeEach(async () => {
  lines = [];
  readiness = readinessOf({ isUp: () => true, tables: () => 'right' }, false);
  text = () => Promise.resolve('counts\n');
  open = await openWatchPort(HERE, shown, log);
});
afterEach(() => open.close());

const look = (path: string, method = 'GET') => fetch(`http://127.0.0.1:${open.port}${path}`, { method });

describe('the port for watching', () => {
  it('shows health, readiness and counts, with a query as without', async () => {
    expect((await look('/healthz')).status).toBe(200);
    expect((await look('/readyz?verbose')).status).toBe(200);
    expect(await (await look('/metrics')).text()).toBe('counts\n');
  });

  it('gives the head alone where only that is asked for', async () => {
    const head = await look('/readyz', 'HEAD');
    expect([head.status, await head.text()]).toEqual([200, '']);
  });

  it.each([
    ['/', 'GET', 404],
    ['/metrics/', 'GET', 404],
    ['/interactions', 'POST', 404],
    ['/metrics', 'POST', 405],
    ['/healthz', 'DELETE', 405],
  ])('refuses %s by %s with %i', async (path, method, status) => {
    expect((await look(path, method)).status).toBe(status);
  });

  it('says 503, and why, while the program is not ready', async () => {
    readiness = readinessOf({ isUp: () => false, tables: () => 'right' }, false);
    const response = await look('/readyz');
    expect(response.status).toBe(503);
    expect(await response.json()).toEqual({
      ready: false,
      ending: false,
      platform: 'down',
      tables: 'right',
      storage: 'here',
      answers: 'everything',
    });
  });

  it('goes on after counts that could not be made, and says nothing of why to whoever looks', async () => {
    text = () => Promise.reject(new Error('my secret words'));
    const failed = await look('/metrics');
    expect([failed.status, await failed.text()]).toEqual([500, 'failed\n']);
    expect(lines.map(({ level }) => level)).toEqual(['warn']);
    expect(JSON.stringify(lines)).not.toContain('my secret words');
    expect((await look('/healthz')).status).toBe(200);
  });

  it('goes on after headers without end and after what is no HTTP', async () => {
    for (const sent of [
      `GET /healthz HTTP/1.1\r\nHost: here\r\nX: ${'a'.repeat(20_000)}`,
      '\u0000\u0001 nonsense\r\n\r\n',
    ]) {
      const socket = connect(open.port ?? 0, '127.0.0.1');
      const closed = new Promise<void>((resolve) => socket.once('close', () => resolve()));
      socket.on('error', () => undefined);
      socket.write(sent);
      await closed;
    }
    expect((await look('/healthz')).status).toBe(200);
  });

  it('that is taken leaves a line in the log, and nothing else goes wrong', async () => {
    const other = createServer();
    await new Promise<void>((resolve) => other.listen(0, '127.0.0.1', resolve));
    const second = await openWatchPort({ ...HERE, port: (other.address() as AddressInfo).port }, shown, log);
    expect(second.port).toBeNull();
    expect(lines).toEqual([
      expect.objectContaining({ level: 'warn', data: expect.objectContaining({ code: 'EADDRINUSE' }) }),
    ]);
    await second.close();
    await new Promise((resolve) => other.close(resolve));
  });

  it('closes while somebody holds a connection', async () => {
    const socket = connect(open.port ?? 0, '127.0.0.1');
    socket.on('error', () => undefined);
    await new Promise<void>((resolve) => socket.once('connect', () => resolve()));
    await open.close();
    await expect(look('/healthz')).rejects.toThrow();
    open = await openWatchPort(HERE, shown, log);
  });
});

describe('readiness', () => {
  const isUp = () => true;
  it.each([
    ['nothing is open yet', {}, false, { ready: false, platform: 'starting' }],
    ['the platform is heard and tables are right', { isUp, tables: () => 'right' as const }, false, { ready: true }],
    ['the platform is not heard', { isUp: () => false, tables: () => 'right' as const }, false, { ready: false }],
    ['the tables are waited for', { isUp, tables: () => 'waiting' as const }, false, { ready: false, storage: 'here' }],
    ['storage is away', { isUp, tables: () => 'away' as const }, false, { ready: true, storage: 'away' }],
    ['the end has begun', { isUp, tables: () => 'right' as const }, true, { ready: false, ending: true }],
  ])('where %s', (_, sources, isEnding, expected) => {
    expect(readinessOf(sources, isEnding)).toMatchObject(expected);
  });

  it('tells that only what is told in the question can be answered, where nothing is kept', () => {
    expect(readinessOf({ isUp, tables: () => 'away' }, false).answers).toBe('what is told in the question');
  });
});
