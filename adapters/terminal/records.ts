import { randomBytes } from 'node:crypto';
import type { Person, Place } from '../../src/records/place.ts';
import type { Records } from '../../src/records/records.ts';
import { StorageAway } from '../../src/records/storage-away.ts';
import type { Where } from '../../src/records/where.ts';
import type { Reply, Request } from '../../src/request.ts';
import { ask as solve } from '../../src/workbench.ts';

/** Answers one request. */
export type Ask = (request: Request) => Promise<Reply>;

/** Records that are open, and how to close them. */
export type OpenRecords = Records & { readonly close: () => Promise<void> };

/** Who sits at the terminal. */
export type Sitter = { readonly person: Person; readonly roles: readonly string[] };

/** Whoever says they moderate the terminal runs it: there is nobody else to ask. */
const RUNS_PLACE = 'moderator';
const PLACE = 'terminal' as Place;

/** Storage that is away is swept the next time. */
function leaveToNextTime(error: unknown): void {
  if (!(error instanceof StorageAway)) throw error;
}

/**
 * Opens what is kept at the first request that needs it. With `keepAll` every answer gets a receipt; else a question
 * about a bike told in its own line touches no storage, so that the same question gives the same bytes.
 */
export function openAsk(
  where: Where,
  sitter: Sitter,
  keepAll: boolean,
  openRecords: (where: Where) => Promise<OpenRecords>,
): { readonly ask: Ask; readonly close: () => Promise<void> } {
  let opened: Promise<{ readonly ask: Ask; readonly close: () => Promise<void> }> | undefined;

  const open = async () => {
    const { openDesk } = await import('../../src/desk.ts');
    const records = await openRecords(where);
    const desk = openDesk({ records, nowMs: () => Date.now(), randomBytes });
    const visitor = {
      who: { place: PLACE, person: sitter.person },
      roles: sitter.roles,
      runsPlace: sitter.roles.includes(RUNS_PLACE),
    };
    // A terminal runs for minutes, not days: what is kept for too long goes when it leaves.
    const close = async () => {
      await records.privacy.sweep(Date.now()).catch(leaveToNextTime);
      await records.close();
    };
    return { ask: (request: Request) => desk.ask({ request, visitor }), close };
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
