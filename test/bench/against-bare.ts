import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { startPostgres } from '../support/postgres.ts';
import { type Compared, compared, type Side, type Size } from './rounds.ts';
import type { Row } from './row.ts';
import type { Served } from './served.ts';

/** Goal of whoever ordered the program: processor time of a `convert` against that of a bare reply of the same size. */
const GOAL_RATIO = 1.6;

/** The program, and a bare one that always says what the program says most like. */
export type Pair = {
  readonly ours: Side;
  readonly bare: Side;
  readonly reply: string;
  readonly end: () => Promise<void>;
};

/** Both of them where nothing else was opened for them. */
export function pairOf(ours: Served, bare: Served, reply: string, sideOf: (served: Served) => Side): Pair {
  return {
    ours: sideOf(ours),
    bare: sideOf(bare),
    reply,
    end: async () => {
      await Promise.all([ours.end(), bare.end()]);
    },
  };
}

/** One way to a platform. */
export type Way = {
  readonly name: string;
  /** Whose reply the bare one's is. */
  readonly bareReply: string;
  readonly limitedBy: string;
  /** Starts both, ours with its records where the settings say. */
  readonly start: (records: Readonly<Record<string, string>>) => Promise<Pair>;
};

/** A `convert` with its receipt in each of the two engines, by turns with a bare reply. */
export async function againstBare(way: Way, size: Size): Promise<readonly [Row & Compared, Row & Compared]> {
  const folder = mkdtempSync(join(tmpdir(), 'ringwright-bench-'));
  const postgres = await startPostgres();
  try {
    return [
      await measured(way, 'SQLite', { RINGWRIGHT_DATA: folder }, size),
      await measured(way, 'PostgreSQL', { DATABASE_URL: await postgres.database() }, size),
    ];
  } finally {
    await postgres.end();
    rmSync(folder, { recursive: true, force: true });
  }
}

async function measured(
  { name, bareReply, limitedBy, start }: Way,
  engine: string,
  records: Readonly<Record<string, string>>,
  size: Size,
): Promise<Row & Compared> {
  const { ours, bare, reply, end } = await start(records);
  try {
    const found = await compared(ours, bare, size);
    return {
      what: `${name}, convert, receipt in ${engine}`,
      measured: `${found.oursUs.toFixed(0)} µs`,
      baseline: `${found.bareUs.toFixed(0)} µs, ${bareReply} of ${Buffer.byteLength(reply)} bytes`,
      goal: GOAL_RATIO,
      limitedBy,
      ...found,
    };
  } finally {
    await end();
  }
}
