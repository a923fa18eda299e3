import { readFile } from 'node:fs/promises';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { createAdaptorServer } from '@hono/node-server';
import { type Context, Hono } from 'hono';
import { bodyLimit } from 'hono/body-limit';
import { z } from 'zod';
import { allForms } from './fields.ts';
import { guard } from './guard.ts';
import { LIMITS } from './limits.ts';
import { ROLE_NAMES, ROLES } from './people.ts';
import type { Ports } from './ports.ts';
import { openRoom, type Room } from './room.ts';
import { READY, TOUR } from './words.ts';

const Role = z.enum(ROLE_NAMES);
const About = { role: Role, after: z.string().max(LIMITS.id).nullable() };
const Told = z.union([
  z.strictObject({ ...About, line: z.string() }),
  z.strictObject({
    ...About,
    command: z.string().max(LIMITS.name),
    setup: z.string(),
    options: z.record(z.string().max(LIMITS.name), z.string()),
  }),
]);

const FILES: Readonly<Record<string, { readonly file: string; readonly type: string }>> = {
  '/': { file: 'index.html', type: 'text/html; charset=utf-8' },
  '/room.css': { file: 'room.css', type: 'text/css; charset=utf-8' },
  '/room.js': { file: 'room.js', type: 'text/javascript; charset=utf-8' },
  '/card.js': { file: 'card.js', type: 'text/javascript; charset=utf-8' },
  '/composer.js': { file: 'composer.js', type: 'text/javascript; charset=utf-8' },
  '/forms.js': { file: 'forms.js', type: 'text/javascript; charset=utf-8' },
  '/dom.js': { file: 'dom.js', type: 'text/javascript; charset=utf-8' },
  '/icon.svg': { file: 'icon.svg', type: 'image/svg+xml' },
  '/tour.js': { file: 'tour.js', type: 'text/javascript; charset=utf-8' },
};

export type Practice = {
  /** The address with its token: whoever has it is let in. */
  readonly address: string;
  readonly port: number;
  /** Ports that were tried first and are taken. */
  readonly taken: readonly number[];
  readonly close: () => Promise<void>;
};

/** Opens the practice room on this machine only, at the port wanted or the next that is free. */
export async function openPractice(ports: Ports, wanted: number): Promise<Practice> {
  const token = Buffer.from(ports.randomBytes(24)).toString('base64url');
  const room = await openRoom(ports);
  let port = wanted;
  const app = appOf(room, ports, token, () => port);
  const server = createAdaptorServer({ fetch: app.fetch });
  const taken: number[] = [];
  try {
    while (!(await listens(server, port))) {
      taken.push(port);
      if (taken.length > LIMITS.portsTried) throw new Error(`ports ${wanted} to ${port} are all taken`);
      port += 1;
    }
  } catch (error) {
    await room.close();
    throw error;
  }
  port = (server.address() as AddressInfo).port;
  return {
    address: `http://127.0.0.1:${port}/?token=${token}`,
    port,
    taken,
    close: async () => {
      const ended = new Promise((resolve) => server.close(resolve));
      if ('closeAllConnections' in server) server.closeAllConnections();
      await ended;
      await room.close();
    },
  };
}

/** Whether the port was free. */
function listens(server: ReturnType<typeof createAdaptorServer>, port: number): Promise<boolean> {
  return new Promise((resolve, reject) => {
    const failed = (error: NodeJS.ErrnoException) => {
      server.removeListener('listening', listening);
      if (error.code === 'EADDRINUSE') resolve(false);
      else reject(error);
    };
    const listening = () => {
      server.removeListener('error', failed);
      resolve(true);
    };
    server.once('error', failed).once('listening', listening);
    server.listen(port, '127.0.0.1');
  });
}

function appOf(room: Room, ports: Ports, token: string, portOf: () => number): Hono {
  const app = new Hono();
  app.use(guard(token, portOf));
  const tooLong = (context: Context) =>
    context.json({ fault: 'That is more than can be read at once. A bike fits into a few hundred characters.' }, 413);
  app.use(bodyLimit({ maxSize: LIMITS.bodyBytes, onError: tooLong }));
  app.onError((error, context) => {
    ports.fault(error);
    return context.json({ fault: 'Something went wrong here, and it is not your doing. Please try again.' }, 500);
  });

  for (const [path, { file, type }] of Object.entries(FILES)) {
    app.get(path, async (context) => {
      const text = await readFile(join(import.meta.dirname, 'page', file), 'utf8');
      return context.body(text, 200, { 'Content-Type': type });
    });
  }
  for (const [index, file] of ports.fonts.entries()) {
    app.get(`/font/${index}`, async (context) =>
      context.body(new Uint8Array(await readFile(file)), 200, { 'Content-Type': 'font/ttf' }),
    );
  }
  app.get('/room', (context) => context.json({ roles: ROLES, ready: READY, tour: TOUR, forms: allForms() }));
  app.get('/complete', async (context) => {
    const role = Role.safeParse(context.req.query('role'));
    const line = context.req.query('line') ?? '';
    if (!role.success || line.length > LIMITS.completedLine) return context.json({ completions: [] });
    return context.json({ completions: await room.complete(line, role.data) });
  });
  app.get('/picture', async (context) => {
    const { id = '', figure = '', theme = 'light' } = context.req.query();
    const png = await room.picture(id, Number(figure), theme === 'dark' ? 'dark' : 'light');
    if (png === null) return context.text('There is no such picture.', 404);
    return context.body(new Uint8Array(png), 200, { 'Content-Type': 'image/png' });
  });
  app.get('/print', async (context) => {
    const page = await room.page(context.req.query('id') ?? '');
    if (page === null) return context.text('There is nothing to print.', 404);
    const name = encodeURIComponent(page.name);
    const headers = {
      'Content-Type': 'application/pdf',
      'Content-Disposition': `attachment; filename*=UTF-8''${name}`,
    };
    return context.body(new Uint8Array(page.pdf), 200, headers);
  });
  app.get('/sent', async (context) => {
    const sent = await room.sent(context.req.query('id') ?? '');
    return sent === null
      ? context.json({ fault: 'That answer is from before the room was opened or erased. Please ask again.' }, 404)
      : context.json(sent);
  });
  app.post('/ask', async (context) => {
    const body = isJson(context) ? Told.safeParse(await context.req.json().catch(() => null)) : null;
    if (body === null || !body.success) return context.json({ fault: 'The page sent what cannot be read here.' }, 400);
    const answer = await room.ask(body.data);
    if (!('waitMs' in answer)) return context.json(answer);
    const seconds = Math.ceil(answer.waitMs / 1000);
    const words = `That was quick. Please wait ${seconds === 1 ? 'a second' : `${seconds} seconds`} and ask again.`;
    return context.json({ fault: words }, 429, { 'Retry-After': String(seconds) });
  });
  app.post('/erase', async (context) => {
    await room.erase();
    return context.json({ erased: true });
  });
  app.notFound((context) => context.text('There is nothing here.', 404));
  return app;
}

function isJson(context: Context): boolean {
  return /^application\/json\b/i.test(context.req.header('content-type') ?? '');
}
