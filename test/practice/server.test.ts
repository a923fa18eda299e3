import { once } from 'node:events';
import { existsSync, readFileSync } from 'node:fs';
import { request as httpRequest } from 'node:http';
import { createServer } from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { practiceRoom } from '../support/practice-room.ts';

type Answered = { readonly status: number; readonly headers: Readonly<Record<string, unknown>>; readonly text: string };

let room: Awaited<ReturnType<typeof practiceRoom>>;
let cookie = '';

/** One request exactly as told: no header is added but the host's. */
function send(
  path: string,
  {
    method = 'GET',
    headers = {},
    body = '',
  }: { method?: string; headers?: Record<string, string>; body?: string } = {},
): Promise<Answered> {
  return new Promise((resolve, reject) => {
    const asked = httpRequest(
      { host: '127.0.0.1', port: room.port, path, method, headers: { host: `127.0.0.1:${room.port}`, ...headers } },
      (response) => {
        let text = '';
        response.setEncoding('utf8').on('data', (part: string) => {
          text += part;
        });
        response.on('end', () => resolve({ status: response.statusCode ?? 0, headers: response.headers, text }));
      },
    );
    asked.on('error', reject);
    asked.end(body);
  });
}

const letIn = () => ({ cookie });
const fromPage = () => ({ cookie, origin: `http://127.0.0.1:${room.port}`, 'content-type': 'application/json' });

const post = (path: string, body: unknown, headers: Record<string, string> = fromPage()) =>
  send(path, { method: 'POST', headers, body: JSON.stringify(body) });

const ask = async (line: string, role = 'member', after: string | null = null) =>
  JSON.parse((await post('/ask', { role, after, line })).text);

beforeAll(async () => {
  room = await practiceRoom();
  const { pathname, search } = new URL(room.address);
  const first = await send(pathname + search);
  expect(first.status).toBe(303);
  const [given = ''] = [first.headers['set-cookie']].flat().map(String);
  expect(given).toMatch(/HttpOnly/);
  expect(given).toMatch(/SameSite=Strict/);
  cookie = given.split(';')[0] ?? '';
});
afterAll(() => room.end());

describe('the door of the practice room', () => {
  it('is on this machine only', () => {
    expect(new URL(room.address).hostname).toBe('127.0.0.1');
  });

  it('opens for the token, once it is turned into a cookie', async () => {
    expect((await send('/', { headers: letIn() })).status).toBe(200);
  });

  it.each([
    '/',
    '/room',
    '/room.js',
    '/complete?role=member&line=',
    '/sent?id=a1',
    '/picture?id=a1&figure=0',
    '/font/0',
  ])('stays shut at %s without it', async (path) => {
    expect((await send(path)).status).toBe(403);
    expect((await send(path, { headers: { cookie: `ringwright-practice-${room.port}=guess` } })).status).toBe(403);
  });

  it('stays shut for a wrong token', async () => {
    expect((await send('/?token=guess')).status).toBe(403);
  });

  it('refuses a host whose name was made to lead here', async () => {
    expect((await send('/', { headers: { ...letIn(), host: `example.org:${room.port}` } })).status).toBe(421);
  });

  it.each(['/ask', '/erase'])('refuses to do %s for another page, or for none', async (path) => {
    const { origin: _, ...nowhere } = fromPage();
    const body = { role: 'member', after: null, line: 'help' };
    expect((await post(path, body, { ...fromPage(), origin: 'https://example.org' })).status).toBe(403);
    expect((await post(path, body, { ...fromPage(), origin: 'null' })).status).toBe(403);
    expect((await post(path, body, nowhere)).status).toBe(403);
  });

  it('refuses even to show something to another page', async () => {
    expect((await send('/room', { headers: { ...letIn(), origin: 'https://example.org' } })).status).toBe(403);
  });

  it('forbids scripts and styles that stand in the page, and everything from elsewhere', async () => {
    const page = await send('/', { headers: letIn() });
    const policy = String(page.headers['content-security-policy']);
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("frame-ancestors 'none'");
    expect(policy).not.toMatch(/unsafe|https?:|\*/);
    expect(page.text).not.toMatch(/<script(?![^>]*\bsrc=)|<style|\son\w+=|\sstyle=/);
    expect(page.text).not.toMatch(/(?:src|href)="(?:https?:)?\/\//);
    expect(page.headers['x-content-type-options']).toBe('nosniff');
    expect(page.headers['cache-control']).toBe('no-store');
  });

  it('writes text into the page as text only', () => {
    for (const name of ['card', 'composer', 'dom', 'forms', 'room', 'tour']) {
      const script = readFileSync(new URL(`../../adapters/practice/page/${name}.js`, import.meta.url), 'utf8');
      expect(script, name).not.toMatch(/innerHTML|outerHTML|insertAdjacentHTML|document\.write|eval\(|new Function/);
    }
  });

  it('takes the next port where one is taken, and says so', async () => {
    const other = createServer().listen(0, '127.0.0.1');
    await once(other, 'listening');
    const address = other.address();
    const busy = typeof address === 'object' && address !== null ? address.port : 0;
    const second = await practiceRoom(busy);
    expect(second.taken[0]).toBe(busy);
    expect(second.port).toBeGreaterThan(busy);
    await second.end();
    other.close();
  });
});

describe('a question in the practice room', () => {
  it('is answered with a card, its parts and a code', async () => {
    const shown = await ask('2x10 36/22 11-36 29er hardtail 104bcd clutch stays=440mm chain=108');
    expect(shown).toMatchObject({ kind: 'answered', command: 'convert', goesOn: true });
    expect(shown.answer).toContain('32T');
    expect(shown.code).toMatch(/^[0-9A-Z]{8}$/);
    expect(shown.sections.map((each: { name: string }) => each.name)).toEqual(
      expect.arrayContaining(['gears', 'chain', 'torque', 'safety', 'why']),
    );
  });

  it('loses no block of the card among its parts', async () => {
    const shown = await ask('2x10 36/22 11-36 29er hardtail 104bcd clutch stays=440mm chain=108');
    const { answered } = await import('../support/replies.ts');
    const { card } = answered('2x10 36/22 11-36 29er hardtail 104bcd clutch stays=440mm chain=108');
    const parts = shown.sections.flatMap((each: { blocks: unknown[] }) => each.blocks);
    expect(shown.blocks.length + parts.length).toBe(card.blocks.length);
  });

  it('goes on with the bike before: "what about 34?"', async () => {
    const first = await ask('2x10 36/22 11-36 29er hardtail 104bcd');
    const next = await ask('what about 34?', 'member', first.id);
    expect(next.answer).toContain('34T');
    expect(next.readBack).toContain('36/22');
  });

  it('has pictures for both themes', async () => {
    const shown = await ask('2x10 36/22 11-36 29er hardtail 104bcd');
    const pictures = await Promise.all(
      ['light', 'dark'].map((theme) => send(`/picture?id=${shown.id}&figure=0&theme=${theme}`, { headers: letIn() })),
    );
    for (const { status, headers } of pictures) {
      expect(status).toBe(200);
      expect(headers['content-type']).toBe('image/png');
    }
    expect(pictures[0]?.text).not.toBe(pictures[1]?.text);
    expect((await send(`/picture?id=${shown.id}&figure=99`, { headers: letIn() })).status).toBe(404);
    expect((await send('/picture?id=nobody&figure=0', { headers: letIn() })).status).toBe(404);
  });

  it('can be seen as it would be sent', async () => {
    const shown = await ask('help');
    const sent = JSON.parse((await send(`/sent?id=${shown.id}`, { headers: letIn() })).text);
    expect(sent).toEqual({ Somewhere: [{ text: shown.answer }] });
  });

  it('comes back inert, whatever hides in it', async () => {
    const hostile = '2x10 36/22 11-36 29er <img src=x onerror=alert(1)> \u202Egpj.exe\u200B';
    const reply = await post('/ask', { role: 'member', after: null, line: hostile });
    expect(reply.headers['content-type']).toMatch(/^application\/json/);
    expect(reply.text).not.toMatch(/[\u202E\u200B]/);
    const kept = await ask('bike save "<b>\u202Ewinter</b>" 2x10 36/22 11-36');
    expect(JSON.stringify(kept)).not.toMatch(/\u202E/);
  });

  it('that is far too long is refused in words', async () => {
    const long = await ask('x'.repeat(10_000));
    expect(long.kind).toBe('refused');
    const huge = await post('/ask', { role: 'member', after: null, line: 'x'.repeat(70_000) });
    expect(huge.status).toBe(413);
    expect(JSON.parse(huge.text).fault).toContain('more than can be read');
  });

  it.each([
    { role: 'owner', after: null, line: 'help' },
    { role: 'member', after: null },
    { role: 'member', after: null, line: 7 },
    { role: 'member', after: null, line: 'help', extra: 1 },
    null,
  ])('of a shape nobody sends is refused: %j', async (body) => {
    expect((await post('/ask', body)).status).toBe(400);
  });

  it('that comes too fast is told when to ask again', async () => {
    room.clock.still = true;
    let last = await post('/ask', { role: 'member', after: null, line: 'help' });
    for (let asked = 0; asked < 30 && last.status === 200; asked += 1) {
      last = await post('/ask', { role: 'member', after: null, line: 'help' });
    }
    room.clock.still = false;
    expect(last.status).toBe(429);
    expect(last.headers['retry-after']).toBe('1');
    expect(JSON.parse(last.text).fault).toContain('wait a second');
  });
});

describe('completion', () => {
  const complete = async (line: string, role = 'member'): Promise<readonly { label: string; line: string }[]> =>
    JSON.parse((await send(`/complete?${new URLSearchParams({ role, line })}`, { headers: letIn() })).text).completions;

  it.each([
    ['conv', 'convert '],
    ['convert cas', 'convert cassette='],
    ['convert terrain=h', 'convert terrain=hills '],
    ['convert 2x10 bcd=104', 'convert 2x10 bcd=104 '],
    ['answer pi', 'answer pin '],
    ['clut', 'clutch='],
    ['job list closed=y', 'job list closed=yes '],
  ])('of "%s" offers "%s"', async (typed, line) => {
    expect((await complete(typed)).map((each) => each.line)).toContain(line);
  });

  it('offers nothing for what every object has and no key is called', async () => {
    for (const typed of ['convert constructor=x', 'constructor=', 'bike save constructor=x']) {
      expect(await complete(typed)).toEqual([]);
    }
  });

  it("offers the asker's own bikes and nobody else's", async () => {
    await ask('bike save commuter 2x10 36/22 11-36', 'mechanic');
    expect((await complete('convert bike=', 'mechanic')).map((each) => each.line)).toContain('convert bike=commuter ');
    expect(await complete('convert bike=comm', 'second-mechanic')).toEqual([]);
  });
});

describe('erasing the practice data', () => {
  it('leaves nothing, and the room goes on', async () => {
    const shown = await ask('bike save winter 2x10 36/22 11-36');
    expect(shown.kind).toBe('kept');
    expect((await post('/erase', {})).status).toBe(200);
    const files = ['', '-wal', '-shm'].map((ending) => room.path + ending).filter(existsSync);
    expect(files.map((file) => readFileSync(file, 'latin1')).join('')).not.toContain('winter');
    expect((await ask('bike show winter')).kind).toBe('refused');
    expect((await send(`/sent?id=${shown.id}`, { headers: letIn() })).status).toBe(404);
    // The two moderators are there again.
    expect((await ask('answer pin hills text="32 suits."', 'moderator')).answer).toContain(
      'waits for a second moderator',
    );
  });

  it('happened without a fault of ours, as did everything before it', () => {
    expect(room.faults).toEqual([]);
  });
});
