import { randomBytes } from 'node:crypto';
import { mkdir, writeFile } from 'node:fs/promises';
import { enableCompileCache } from 'node:module';
import { join } from 'node:path';
import { ConfigError } from '../../src/config-error.ts';
import { openPrinter } from '../print/printer.ts';
import { begin } from '../program/begin.ts';
import { live } from '../program/life.ts';
import { openLines } from '../program/log-lines.ts';
import { logId, nowMs, pause, timer } from '../program/machine.ts';
import { sweepsTo } from '../program/sweeps.ts';
import type { Env } from '../settings/secret-files.ts';
import { watched } from '../watch/watch.ts';

// Before anything large is loaded, so that a second start finds it compiled.
enableCompileCache();

/** Begins what the words behind the program ask for: to answer until it is told to stop, or to write its manifest. */
async function run([task = 'answer', ...args]: readonly string[], env: Env): Promise<void> {
  if (task === 'manifest') return writeManifest(args);
  if (task !== 'answer' || args.length > 0) misled('nothing, or manifest, stands behind the program');
  await serve(env);
}

function misled(words: string): never {
  throw new ConfigError('slack-words', words);
}

/** The manifest into `deploy`, or, with the address of a server, onto the screen. */
async function writeManifest([publicUrl, ...more]: readonly string[]): Promise<void> {
  const { deployFiles, manifest } = await import('./register.ts');
  if (more.length > 0 || (publicUrl !== undefined && !/^https:\/\/[^/\s]+$/.test(publicUrl))) {
    return misled('manifest is followed by nothing, or by an address such as https://ringwright.example.org');
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
  const [{ readConfig }, { readSecretFile }, { pino }] = await Promise.all([
    import('./config.ts'),
    import('../settings/secret-files.ts'),
    import('pino'),
  ]);
  const config = readConfig(env, readSecretFile);
  const lines = openLines();
  const log = pino({ level: config.logLevel }, lines);
  await live(log, lines, async ({ opened, isEnding }) => {
    const watch = opened.adopt(await watched('slack', config.watch, isEnding, log), ({ close }) => close());
    // The database is reached while the rest is loaded.
    const opening = import('../storage/open.ts').then(({ openRecords }) => openRecords(config.records, config.migrate));
    const [found, { openDesk }, { openPictures }, { openHandler }, { openApp }, { keepSwept }, parts] =
      await Promise.all([
        opening,
        import('../../src/desk.ts'),
        import('../picture/pictures.ts'),
        import('./handle.ts'),
        import('./app.ts'),
        import('../storage/sweeping.ts'),
        slackParts(),
      ]);
    const { keyFrom, openInstallations, openPeople, openShooter, servePicture, wayOf } = parts;
    const kept = opened.adopt(found, ({ close }) => close());
    const drawn = opened.adopt(openPictures(), ({ close }) => close());
    watch.follow({ tables: kept.tables, picturesWaiting: drawn.waiting });
    const { notice } = watch;
    const records = watch.records(kept);
    const pictures = watch.pictures(drawn);
    const desk = watch.desk(openDesk({ records, nowMs, randomBytes, timer }));
    const printPage = openPrinter(nowMs);
    opened.defer(keepSwept(records.privacy, nowMs, sweepsTo(log)));
    const way = wayOf(config.pictures, pictures);
    const installations =
      config.tenancy.kind === 'one'
        ? null
        : openInstallations(records.installations, keyFrom(config.tenancy.stateSecret, 'installations'), nowMs, log);
    const handle = openHandler(
      {
        desk,
        records,
        people: openPeople(nowMs, timer),
        shots: openShooter(way, nowMs, pause),
        // Workspaces that install the program are asked for files only where pictures are uploaded.
        printPage: config.tenancy.kind === 'one' || config.pictures.kind === 'upload' ? printPage : null,
        log,
        notice,
        nowMs,
        timer,
        logId,
      },
      async (team) => installations?.remove(team),
    );
    const inside = {
      handle,
      servePicture:
        way.kind === 'address' ? (name: string) => servePicture(name, way.secret, pictures, records, nowMs()) : null,
      installations,
      log,
      notice,
      wait: pause,
    };
    const { port, isUp, underWay } = opened.adopt(await openApp(config, inside), ({ close }) => close());
    watch.follow({ isUp, underWay });
    return { mode: config.receiving.kind, tenancy: config.tenancy.kind, port };
  });
}

/** The smaller parts that only this platform has. */
async function slackParts() {
  const [installations, people, pictureAddress, shots] = await Promise.all([
    import('./installations.ts'),
    import('./people.ts'),
    import('./picture-address.ts'),
    import('./shots.ts'),
  ]);
  return { ...installations, ...people, ...pictureAddress, ...shots };
}

await begin('Ringwright on Slack', () => run(process.argv.slice(2), process.env));
