import { readFileSync } from 'node:fs';
import { setTimeout as wait } from 'node:timers/promises';
import type { PostgresServer } from './postgres.ts';

/** Kills a server as a crash of its machine would, and waits until all of its processes are gone. */
export async function crash(server: PostgresServer): Promise<void> {
  const all = processesOf(server.processId());
  for (const id of all) signal(id, 'SIGKILL');
  while (all.some(isThere)) await wait(10);
}

/** Holds a server up: it keeps its connections and says nothing, until the function that this gives is called. */
export function holdUp(server: PostgresServer): () => void {
  const all = processesOf(server.processId());
  for (const id of all) signal(id, 'SIGSTOP');
  return () => {
    for (const id of all) signal(id, 'SIGCONT');
  };
}

/** The server and everything it has started. Linux tells a process its children. */
function processesOf(id: number): readonly number[] {
  const children = readFileSync(`/proc/${id}/task/${id}/children`, 'utf8').trim();
  return [id, ...(children === '' ? [] : children.split(' ').map(Number))];
}

function signal(id: number, name: NodeJS.Signals): void {
  try {
    process.kill(id, name);
  } catch {
    // It ended by itself meanwhile.
  }
}

function isThere(id: number): boolean {
  try {
    // A process that has ended and that nobody has asked about yet is gone as well.
    return !readFileSync(`/proc/${id}/stat`, 'utf8').includes(') Z ');
  } catch {
    return false;
  }
}
