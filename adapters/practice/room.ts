import { type Desk, openDesk } from '../../src/desk.ts';
import type { Figure } from '../../src/draw/figure.ts';
import type { ThemeName } from '../../src/draw/theme.ts';
import { openPaces } from '../../src/pace.ts';
import type { Printable, Request } from '../../src/request.ts';
import { type Completion, complete } from './complete.ts';
import { LIMITS } from './limits.ts';
import { type Given, requestOf } from './line.ts';
import { furnish, type RoleName, visitorOf } from './people.ts';
import type { OpenRecords, Ports, Sent } from './ports.ts';
import { type Shown, shown } from './shown.ts';

/** What the page asks: a line as it was typed, or a question that stood behind a button or a form. */
export type Told = {
  readonly role: RoleName;
  /** The answer whose bike is being spoken of. */
  readonly after: string | null;
} & (
  | { readonly line: string }
  | { readonly command: string; readonly setup: string; readonly options: Readonly<Record<string, string>> }
);

export type Room = {
  readonly ask: (told: Told) => Promise<Shown | { readonly waitMs: number }>;
  readonly complete: (line: string, role: RoleName) => Promise<readonly Completion[]>;
  /** A picture of an answer given here; null where there is none. */
  readonly picture: (id: string, index: number, theme: ThemeName) => Promise<Uint8Array | null>;
  readonly page: (id: string) => Promise<{ readonly name: string; readonly pdf: Uint8Array } | null>;
  readonly sent: (id: string) => Promise<Sent | null>;
  readonly erase: () => Promise<void>;
  readonly close: () => Promise<void>;
};

type Open = { readonly records: OpenRecords; readonly desk: Desk };

/** The room: a desk over records of its own, and the answers given since it was opened. */
export async function openRoom(ports: Ports): Promise<Room> {
  const given = new Map<string, Given & { readonly role: RoleName }>();
  const wait = openPaces(1);
  let asked = 0;
  let closed = false;
  let open = await furnished(ports);

  // One after the other: what is erased is then never asked about half-way.
  let last: Promise<unknown> = Promise.resolve();
  const inTurn = <Done>(work: () => Promise<Done>): Promise<Done> => {
    const next = last.then(work);
    last = next.catch(() => undefined);
    return next;
  };

  const remember = (id: string, each: Given & { readonly role: RoleName }) => {
    given.set(id, each);
    for (const oldest of given.keys()) {
      if (given.size <= LIMITS.remembered) break;
      given.delete(oldest);
    }
  };

  return {
    ask: (told) =>
      inTurn(async () => {
        const waitMs = wait([{ key: 'room', pace: LIMITS.pace }], ports.nowMs());
        if (waitMs > 0) return { waitMs };
        const request = asRequest(told, told.after === null ? null : (given.get(told.after) ?? null));
        const reply = await open.desk.ask({ request, visitor: visitorOf(told.role) });
        asked += 1;
        const id = `a${asked}`;
        remember(id, { reply, request, role: told.role });
        return shown(id, { reply, request });
      }),
    complete: (line, role) => inTurn(() => complete(line, visitorOf(role).who, open.records)),
    picture: async (id, index, theme) => {
      const figure = figureOf(given.get(id), index);
      if (figure === null) return null;
      const picture = await ports.pictures.png(figure, theme);
      if (picture.kind === 'failed') ports.fault(picture.error);
      return picture.kind === 'drawn' ? picture.png : null;
    },
    page: async (id) => {
      const printable = printableOf(given.get(id));
      return printable === null ? null : { name: printable.name, pdf: await ports.printPage(printable) };
    },
    sent: async (id) => {
      const found = given.get(id);
      return found === undefined
        ? null
        : ports.sent({
            reply: found.reply,
            request: found.request,
            who: visitorOf(found.role).who,
            records: open.records,
          });
    },
    erase: () =>
      inTurn(async () => {
        given.clear();
        await open.records.close();
        try {
          await ports.eraseRecords();
        } finally {
          open = await furnished(ports);
        }
      }),
    close: () =>
      inTurn(async () => {
        if (closed) return;
        closed = true;
        await open.records.close();
      }),
  };
}

async function furnished(ports: Ports): Promise<Open> {
  const records = await ports.openRecords();
  await furnish(records, ports.nowMs());
  const { nowMs, randomBytes } = ports;
  return { records, desk: openDesk({ records, nowMs, randomBytes }) };
}

function asRequest(told: Told, before: Given | null): Request {
  if ('line' in told) return requestOf(told.line, before);
  const { command, setup, options } = told;
  return { command, setup, options };
}

function figureOf(given: Given | undefined, index: number): Figure | null {
  return given?.reply.card.blocks.filter((block) => block.kind === 'figure')[index]?.figure ?? null;
}

function printableOf(given: Given | undefined): Printable | null {
  return given?.reply.kind === 'kept' ? (given.reply.print ?? null) : null;
}
