import { spawn } from 'node:child_process';
import { describe, expect, it } from 'vitest';

const url = (path: string) => JSON.stringify(new URL(`../../adapters/program/${path}`, import.meta.url).href);

/** A program of a few lines with the life that every program has; what it logs is a line of its output. */
function lived(start: string) {
  const text = `
    import { begin } from ${url('begin.ts')};
    import { live } from ${url('life.ts')};
    import { openLines } from ${url('log-lines.ts')};
    const line = (data, words) => console.log(words, JSON.stringify(data));
    const log = { debug: line, info: line, warn: line, error: line };
    const closing = (name) => async () => console.log('closed', name);
    const busy = setInterval(() => undefined, 1000);
    await begin('Program', () => live(log, openLines(), async ({ opened, isEnding, end }) => { ${start} }));
    if (process.exitCode) clearInterval(busy);
  `;
  const child = spawn(process.execPath, ['--input-type=module', '-e', text]);
  let said = '';
  for (const stream of [child.stdout, child.stderr]) {
    stream.setEncoding('utf8').on('data', (more: string) => {
      said += more;
      if (said.includes('answering')) child.emit('answering');
    });
  }
  const answering = new Promise<void>((resolve) => child.once('answering', () => resolve()));
  const ended = new Promise<number | null>((resolve) => child.once('close', (code) => resolve(code)));
  return { kill: (signal: NodeJS.Signals) => child.kill(signal), answering, ended, said: () => said };
}

const TWO = `opened.defer(closing('records')); opened.defer(closing('transport'));`;

describe('a program', () => {
  it.each(['SIGTERM', 'SIGINT'] as const)('told to end by %s closes the last it opened first', async (signal) => {
    const program = lived(`${TWO} return {};`);
    await program.answering;
    program.kill(signal);
    program.kill(signal);
    expect(await program.ended).toBe(0);
    const order = ['answering', 'ending', 'closed transport', 'closed records', 'ended'];
    expect(
      program
        .said()
        .trim()
        .split('\n')
        .map((line) => order.find((each) => line.startsWith(each))),
    ).toEqual(order);
  });

  it('that lost what it cannot do without says so by its exit code', async () => {
    const program = lived(`${TWO} setTimeout(() => end(1), 50); return {};`);
    expect(await program.ended).toBe(1);
    expect(program.said()).toContain('closed records');
  });

  it('with a fault that nobody had in hand ends in good order, and tells neither its words nor who typed them', async () => {
    const program = lived(`${TWO} setTimeout(() => { throw new TypeError('somebody typed this') }, 50); return {};`);
    expect(await program.ended).toBe(1);
    expect(program.said()).toContain('"error":"TypeError"');
    expect(program.said()).toContain('closed records');
    expect(program.said()).not.toContain('somebody typed this');
  });

  it('that cannot close all of it closes the rest, and its exit code says so', async () => {
    const program = lived(`opened.defer(closing('records'));
      opened.defer(() => Promise.reject(new Error('stuck'))); return {};`);
    await program.answering;
    program.kill('SIGTERM');
    expect(await program.ended).toBe(1);
    expect(program.said()).toContain('closed records');
    expect(program.said()).not.toContain('stuck');
  });

  it('that cannot begin closes what it opened, and says one line without the words of the fault', async () => {
    const program = lived(`${TWO} throw Object.assign(new Error('a secret'), { code: 'EACCES' });`);
    expect(await program.ended).toBe(1);
    expect(program.said().trim().split('\n')).toEqual([
      'closed transport',
      'closed records',
      'Program: it could not begin (EACCES)',
    ]);
  });

  it('told to end before it answers is gone at once', async () => {
    const program = lived(`console.log('answering soon'); await new Promise(() => undefined);`);
    await program.answering;
    program.kill('SIGTERM');
    expect(await program.ended).toBe(0);
  });
});
