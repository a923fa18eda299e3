import { type ChildProcess, execFile, spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { ANN, slash } from '../support/discord-payloads.ts';
import { keys, posted } from '../support/discord-transports.ts';
import { imagePackages } from './contents.ts';
import { readLock, readManifest } from './packages.ts';
import { installProduction, type Production } from './production.ts';

const QUESTION = '2x10 36/22 11-36 29er hardtail 104bcd ring=32';
/** Nobody listens there: a program that asks somewhere else than it is asked would fail. */
const NOWHERE = 'http://127.0.0.1:9';

let production: Production;
beforeAll(async () => {
  production = await installProduction();
}, 240_000);
afterAll(() => production?.remove());

/** Nothing of this checkout or of what started the tests reaches the programs. */
function surroundings(more: Readonly<Record<string, string>> = {}) {
  return { PATH: '/usr/bin:/bin', NODE_ENV: 'production', RINGWRIGHT_DATA: join(production.folder, 'data'), ...more };
}

describe('the packages of an installation without tools', () => {
  it('are just those that the page about the image names', () => {
    const forThisMachine = imagePackages(readLock()).filter(
      ({ cpu }) => cpu.length === 0 || cpu.includes(process.arch),
    );
    expect(production.installed).toEqual(forThisMachine.map(({ path }) => path).toSorted());
  });

  it('are none of the tools', () => {
    for (const name of Object.keys(readManifest().devDependencies)) {
      if (production.installed.includes(`node_modules/${name}`)) expect(sharedWithPrograms(name), name).toBe(true);
    }
    expect(existsSync(join(production.folder, 'test'))).toBe(false);
  });

  /** A tool that a program's package asks for as well is there for that package. */
  function sharedWithPrograms(name: string): boolean {
    return imagePackages(readLock()).some(
      ({ dependencies, optionalDependencies }) => name in dependencies || name in optionalDependencies,
    );
  }
});

describe('a program of an installation without tools', () => {
  it('answers at a terminal', async () => {
    const args = ['adapters/terminal/main.ts', '--json', 'convert', QUESTION];
    const { stdout, stderr } = await ran(args);
    expect(stderr).toBe('');
    expect(JSON.parse(stdout)).toMatchObject({
      command: 'convert',
      read: { rings: [36, 22], ringTeeth: 32 },
      answer: { speaksOf: { teeth: 32 }, mount: { bcdMm: 104 } },
    });
  });

  it('keeps what it is told, by the database that comes with it', async () => {
    const saved = await ran(['adapters/terminal/main.ts', 'bike', 'save', 'winter', QUESTION]);
    expect(saved.stderr).toBe('');
    const { stdout } = await ran(['adapters/terminal/main.ts', '--json', 'gears', 'bike=winter']);
    expect(JSON.parse(stdout)).toMatchObject({ command: 'gears', read: { rings: [36, 22] } });
  });

  it('answers on Discord over HTTP, and ends when it is told to', async () => {
    const { publicKey, sign } = keys();
    const port = await freePort();
    const child = spawn(process.execPath, ['adapters/discord/main.ts'], {
      cwd: production.folder,
      env: surroundings({
        DISCORD_MODE: 'http',
        DISCORD_PUBLIC_KEY: publicKey,
        DISCORD_PORT: String(port),
        DISCORD_API: NOWHERE,
      }),
    });
    const ended = new Promise<number | null>((resolve) => child.on('close', resolve));
    try {
      await answering(child);
      const response = await posted(port, sign(JSON.stringify(slash(ANN, 'convert', { setup: QUESTION }))));
      expect(response.status).toBe(200);
      const body: unknown = await response.json();
      expect(body).toMatchObject({ type: 4, data: { flags: 64, allowed_mentions: { parse: [] } } });
      expect(JSON.stringify(body)).toMatch(/32T: [^"]*%/);
      expect(child.kill('SIGTERM')).toBe(true);
      expect(await ended).toBe(0);
    } finally {
      child.kill('SIGKILL');
    }
  });
});

describe('the list of parts that npm writes', () => {
  const Parts = z.object({
    bomFormat: z.literal('CycloneDX'),
    components: z.array(z.object({ name: z.string(), version: z.string() })),
  });

  it('has every installed package with its version', async () => {
    const { components } = Parts.parse(await production.parts());
    const locked = imagePackages(readLock()).filter(({ path }) => production.installed.includes(path));
    const named = (each: { readonly name: string; readonly version?: string | undefined }) =>
      `${each.name.split('/').at(-1)} ${each.version}`;
    expect(new Set(components.map(named))).toEqual(new Set(locked.map(named)));
  });
});

function ran(args: readonly string[]): Promise<{ readonly stdout: string; readonly stderr: string }> {
  return new Promise((resolve, reject) => {
    execFile(process.execPath, args, { cwd: production.folder, env: surroundings() }, (error, stdout, stderr) => {
      if (error !== null) reject(new Error(`${error.message}\n${stdout}\n${stderr}`));
      else resolve({ stdout, stderr });
    });
  });
}

/** Until the program says that it answers; what it said instead is in the failure. */
async function answering(child: ChildProcess): Promise<void> {
  let output = '';
  for (const stream of [child.stdout, child.stderr]) {
    stream?.setEncoding('utf8').on('data', (text: string) => {
      output += text;
    });
  }
  for (let tries = 0; tries < 3000; tries += 1) {
    if (output.includes('"answering"')) return;
    if (child.exitCode !== null) break;
    await wait(10);
  }
  throw new Error(`The program does not answer: ${output}`);
}

async function freePort(): Promise<number> {
  const server = createServer();
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const address = server.address();
  await new Promise<void>((resolve) => server.close(() => resolve()));
  if (address === null || typeof address === 'string') throw new Error('no port');
  return address.port;
}
