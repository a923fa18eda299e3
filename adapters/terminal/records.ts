import { randomBytes } from 'node:crypto';
import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import type { Person, Place } from '../../src/records/place.ts';
import type { Records } from '../../src/records/records.ts';
import type { Reply, Request } from '../../src/request.ts';
import { ask as solve } from '../../src/workbench.ts';

/** Answers one request. */
export type Ask = (request: Request) => Promise<Reply>;

/** Records that are open, and how to close them. */
export type OpenRecords = Records & { readonly close: () => Promise<void> };

/** Where things are kept: a PostgreSQL server when the environment names one, else one file in a folder. */
export type Storage = { readonly url: string } | { readonly folder: string };

/** Who sits at the terminal. */
export type Sitter = { readonly person: Person; readonly roles: readonly string[] };

/** Whoever says they moderate the terminal runs it: there is nobody else to ask. */
const RUNS_PLACE = 'moderator';
const PLACE = 'terminal' as Place;
const FILE = 'ringwright.db';

/**
 * Opens what is kept at the first request that needs it. With `keepAll` every answer gets a receipt; else a question
 * about a bike told in its own line touches no storage, so that the same question gives the same bytes.
 */
export function openAsk(
  storage: Storage,
  sitter: Sitter,
  keepAll: boolean,
  openRecords: (where: { readonly path: string } | { readonly url: string }) => Promise<OpenRecords>,
): { readonly ask: Ask; readonly close: () => Promise<void> } {
  let opened: Promise<{ readonly ask: Ask; readonly close: () => Promise<void> }> | undefined;

  const open = async () => {
    const { openDesk } = await import('../../src/desk.ts');
    if ('folder' in storage) await mkdir(storage.folder, { recursive: true }).catch(() => undefined);
    const records = await openRecords('folder' in storage ? { path: join(storage.folder, FILE) } : storage);
    const desk = openDesk({ records, nowMs: () => Date.now(), randomBytes });
    const visitor = {
      who: { place: PLACE, person: sitter.person },
      roles: sitter.roles,
      runsPlace: sitter.roles.includes(RUNS_PLACE),
    };
    return { ask: (request: Request) => desk.ask({ request, visitor }), close: records.close };
  };

  return {
    ask: async (request) => {
      if (!keepAll) {
        const { asksOfKept } = await import('../../src/commands/kept-words.ts');
        if (!asksOfKept(request)) return solve(request);
      }
      opened ??= open();
      return (await opened).ask(request);
    },
    close: async () => {
      if (opened !== undefined) await (await opened).close();
    },
  };
}
