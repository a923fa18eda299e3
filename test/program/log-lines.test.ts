import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { PassThrough } from 'node:stream';
import { text } from 'node:stream/consumers';
import { describe, expect, it } from 'vitest';
import { openLines } from '../../adapters/program/log-lines.ts';

const url = (path: string) => JSON.stringify(new URL(`../../${path}`, import.meta.url).href);

/** Far more than any pipe holds, and than waits in memory. */
const FLOOD = 100_000;

/** More than a pipe holds, and less than waits in memory. */
const MUCH = 10_000;

/** A program with the log and the life that every program has; once it answers it logs very much at once. */
const programOf = (lines: number) => `
  import { pino } from 'pino';
  import { live } from ${url('adapters/program/life.ts')};
  import { openLines } from ${url('adapters/program/log-lines.ts')};
  const lines = openLines();
  const log = pino({}, lines);
  await live(log, lines, async ({ opened }) => {
    const busy = setInterval(() => undefined, 1000);
    opened.defer(() => clearInterval(busy));
    setTimeout(() => {
      for (let each = 0; each < ${lines}; each += 1) log.info({ each }, 'a line that nobody may ever read, and more');
      process.stderr.write('flooded');
    }, 200);
    return {};
  });
`;

function started(lines = FLOOD) {
  const child = spawn(process.execPath, ['--input-type=module', '-e', programOf(lines)], {
    cwd: import.meta.dirname,
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  // Not its streams' end: what nobody reads is still there after it.
  return { child, ended: once(child, 'exit'), flooded: once(child.stderr, 'data') };
}

describe('a program that is told to end', () => {
  it('ends where whoever read its log is gone', async () => {
    const { child, ended, flooded } = started();
    await once(child.stdout, 'data');
    child.stdout.destroy();
    await flooded;
    child.kill('SIGTERM');
    expect(await ended).toEqual([0, null]);
  });

  it('ends where nobody reads its log and it can hold no more', async () => {
    const { child, ended, flooded } = started();
    await once(child.stdout, 'data');
    child.stdout.pause();
    await flooded;
    child.kill('SIGTERM');
    expect(await ended).toEqual([0, null]);
    child.stdout.destroy();
  });

  it('says its last words where they are read', async () => {
    const { child, ended, flooded } = started(MUCH);
    const said = text(child.stdout);
    await flooded;
    child.kill('SIGTERM');
    expect(await ended).toEqual([0, null]);
    expect((await said).trim().split('\n').at(-1)).toContain('"msg":"ended"');
  });
});

describe('the lines of a log', () => {
  it('that are not read are left out past a limit, and counted once somebody reads again', async () => {
    const slow = new PassThrough();
    const { write } = openLines(slow);
    for (let each = 0; each < FLOOD; each += 1) write(`{"each":${each},"msg":"${'x'.repeat(100)}"}\n`);
    const reading = text(slow);
    await once(slow, 'drain');
    slow.end();
    const lines = (await reading)
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line) as Record<string, number>);
    const last = lines.pop();
    expect(lines.map(({ each }) => each)).toEqual(lines.map((_, at) => at));
    expect(lines.length).toBeGreaterThan(1000);
    expect(last?.leftOut).toBe(FLOOD - lines.length);
  });
});
