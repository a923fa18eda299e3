import { measureDiscordHttp } from './discord-http.ts';
import { measureGateway } from './gateway.ts';
import { measureLoad } from './load.ts';
import { measureMemory } from './memory.ts';
import { measureProcesses } from './processes.ts';
import { FULL } from './rounds.ts';
import type { Row } from './row.ts';
import { measureSlackHttp } from './slack-http.ts';
import { measureStarts } from './start.ts';
import { machine, tableOf } from './table.ts';
import { printWorkbench } from './workbench.ts';

/**
 * The benchmarks, all of them or those that are named:
 *
 *     npm run bench
 *     npm run bench -- http gateway
 */
const BENCHES: Readonly<Record<string, () => Promise<readonly Row[]>>> = {
  http: () => measureDiscordHttp(FULL),
  slack: () => measureSlackHttp(FULL),
  gateway: () => measureGateway(FULL),
  processes: () => measureProcesses(FULL),
  start: () => measureStarts(),
  memory: () => measureMemory(),
  load: () => measureLoad(),
};

const named = process.argv.slice(2);
const unknown = named.filter((name) => name !== 'workbench' && !(name in BENCHES));
if (unknown.length > 0) {
  console.error(
    `There is no benchmark ${unknown.join(', ')}; there are workbench, ${Object.keys(BENCHES).join(', ')}.`,
  );
  process.exit(2);
}
const isWanted = (name: string) => named.length === 0 || named.includes(name);

console.log(`${machine()}\n`);
if (isWanted('workbench')) await printWorkbench();
const rows: Row[] = [];
for (const [name, measure] of Object.entries(BENCHES)) {
  if (!isWanted(name)) continue;
  console.error(`measuring ${name} …`);
  rows.push(...(await measure()));
}
if (rows.length > 0) console.log(tableOf(rows));
