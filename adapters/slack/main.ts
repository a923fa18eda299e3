import { randomBytes } from 'node:crypto';
import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { pino } from 'pino';
import { openDesk } from '../../src/desk.ts';
import type { Printable } from '../../src/request.ts';
import { ConfigError } from '../settings/config-error.ts';
import { type Env, readSecretFile } from '../settings/secret-files.ts';
import { readConfig } from './config.ts';

/** Begins what the words behind the program ask for: to answer until it is told to stop, or to write its manifest. */
async function run([task = 'answer', ...args]: readonly string[], env: Env): Promise<void> {
  if (task === 'manifest') return writeManifest(args);
  if (task !== 'answer' || args.length > 0)
    throw new ConfigError('slack-words', 'nothing, or manifest, stands behind the program');
  await serve(env);
}

/** The manifest into `deploy`, or, with the address of a server, onto the screen. */
async function writeManifest([publicUrl, ...more]: readonly string[]): Promise<void> {
  const { deployFiles, manifest } = await import('./register.ts');
  if (more.length > 0 || (publicUrl !== undefined && !/^https:\/\/[^/\s]+$/.test(publicUrl))) {
    throw new ConfigError(
      'slack-words',
      'manifest is followed by nothing, or by an address such as https://ringwright.example.org',
    );
  }
  if (publicUrl !== undefined) {
    process.stdout.write(`${JSON.stringify(manifest({ kind: 'http', publicUrl }), null, 2)}\n`);
    return;
  }
  const folder = join(import.meta.dirname, '..', '..', 'deploy');
  await mkdir(folder, { recursive: true });
  for (const [name, text] of Object.entries(deployFiles())) await writeFile(join(folder, name), text);
}

async function serve(env: Env): Promise<void> {
  const config = readConfig(env, readSecretFile);
  const log = pino({ level: config.logLevel });
  const { openRecords } = await import('../storage/open.ts');
  const { keepSwept } = await import('../storage/sweeping.ts');
  const { openPictures } = await import('../picture/pictures.ts');
  const { openApp } = await import('./app.ts');
  const { openHandler } = await import('./handle.ts');
  const { keyFrom, openInstallations } = await import('./installations.ts');
  const { errorData } = await import('../../src/log.ts');
  const { openPeople } = await import('./people.ts');
  const { servePicture } = await import('./picture-address.ts');
  const { openShooter } = await import('./shots.ts');

  const records = await openRecords(config.records);
  const pictures = openPictures();
  const nowMs = () => Date.now();
  const pause = (ms: number) => wait(ms, undefined, { ref: false });
  const secret = config.pictures.kind === 'address' ? keyFrom(config.pictures.secret, 'pictures') : null;
  const shots = openShooter(
    config.pictures.kind === 'address' && secret !== null
      ? { kind: 'address', base: config.pictures.base, secret }
      : config.pictures.kind === 'upload'
        ? { kind: 'upload', pictures }
        : { kind: 'none' },
    nowMs,
    pause,
  );
  const printPage = async ({ sheet, paper }: Printable) =>
    (await import('../print/job-sheet.ts')).printJobSheet(sheet, paper, nowMs());
  const installations =
    config.tenancy.kind === 'one'
      ? null
      : openInstallations(records.installations, keyFrom(config.tenancy.stateSecret, 'installations'), nowMs, log);
  const ports = {
    desk: openDesk({ records, nowMs, randomBytes }),
    records,
    people: openPeople(nowMs, pause),
    shots,
    // Workspaces that install the program are asked for files only where pictures are uploaded.
    printPage: config.tenancy.kind === 'one' || config.pictures.kind === 'upload' ? printPage : null,
    log,
    nowMs,
    wait: pause,
    logId: () => randomBytes(4).toString('hex'),
  };
  const handle = openHandler(ports, async (team) => installations?.remove(team));
  const stopSweeping = keepSwept(records.privacy, nowMs, {
    swept: (swept) => log.info(swept, 'swept what was kept for long enough'),
    fault: (error) => log.warn(errorData(error), 'could not sweep; tomorrow again'),
  });
  const open = await openApp(config, {
    handle,
    servePicture: secret === null ? null : (name) => servePicture(name, secret, pictures, records, nowMs()),
    installations,
    log,
    wait: pause,
  });
  log.info({ mode: config.receiving.kind, tenancy: config.tenancy.kind, port: open.port }, 'answering');

  let ending = false;
  const end = async () => {
    if (ending) return;
    ending = true;
    log.info({}, 'ending: no more is taken, what has begun is finished');
    stopSweeping();
    await open.close();
    await pictures.close();
    await records.close();
    log.info({}, 'ended');
    process.exit(0);
  };
  process.once('SIGTERM', end).once('SIGINT', end);
}

try {
  await run(process.argv.slice(2), process.env);
} catch (error) {
  const told = error instanceof Error && error.name === 'ConfigError' ? error.message : 'it could not begin';
  const code = error instanceof Error && 'code' in error ? ` (${String(error.code)})` : '';
  process.stderr.write(`Ringwright on Slack: ${told}${told === 'it could not begin' ? code : ''}\n`);
  process.exitCode = 1;
}
