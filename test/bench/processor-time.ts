import { readdirSync, readFileSync } from 'node:fs';
import pg from 'pg';

/** The kernel counts processor time of other processes in hundredths of a second (proc(5), USER_HZ). */
const US_A_TICK = 10_000;

/**
 * What a PostgreSQL server has used of the processor: itself and the processes it started, those that have ended as well
 * (proc(5), /proc/[pid]/stat). Only where there is a /proc, which is where the benchmarks are run.
 */
export async function openServerTime(url: string): Promise<() => number> {
  const client = new pg.Client(url);
  await client.connect();
  const { rows } = await client.query<{ pid: number }>('select pg_backend_pid() as pid');
  const server = statOf(String(rows[0]?.pid)).parent;
  await client.end();
  return () => {
    const { ownTicks, endedTicks } = statOf(server);
    const running = readdirSync('/proc')
      .filter((name) => /^\d+$/.test(name))
      .map(statOf)
      .filter(({ parent }) => parent === server);
    return running.reduce((sum, each) => sum + each.ownTicks, ownTicks + endedTicks) * US_A_TICK;
  };
}

function statOf(pid: string): { readonly parent: string; readonly ownTicks: number; readonly endedTicks: number } {
  try {
    // The name of the program, in brackets, may hold blanks; what comes behind it does not.
    const fields = readFileSync(`/proc/${pid}/stat`, 'utf8')
      .replace(/^.*\) /s, '')
      .split(' ');
    const [user, system, endedUser, endedSystem] = fields.slice(11, 15).map(Number);
    return {
      parent: fields[1] ?? '',
      ownTicks: (user ?? 0) + (system ?? 0),
      endedTicks: (endedUser ?? 0) + (endedSystem ?? 0),
    };
  } catch {
    // It ended while the folder was read.
    return { parent: '', ownTicks: 0, endedTicks: 0 };
  }
}
