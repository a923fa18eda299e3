import { randomBytes } from 'node:crypto';
import { enableCompileCache } from 'node:module';
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

/** Begins what the words behind the program ask for: to answer until it is told to stop, or to register the commands. */
async function run([task = 'answer', ...args]: readonly string[], env: Env): Promise<void> {
  if (task === 'register') return register(env, args);
  if (task !== 'answer') {
    throw new ConfigError('discord-words', 'nothing, or register, stands behind the program');
  }
  await serve(env);
}

async function register(env: Env, args: readonly string[]): Promise<void> {
  const { readRegisterConfig } = await import('./config.ts');
  const { readSecretFile } = await import('../settings/secret-files.ts');
  const config = readRegisterConfig(env, args, readSecretFile);
  const { wantedCommands } = await import('./commands.ts');
  const { registrationFaults } = await import('./limits.ts');
  const { RenderError } = await import('./render.ts');
  const { openCommands } = await import('./rest.ts');
  const { changeLines, changesBetween, isChanged } = await import('./register.ts');
  const commands = openCommands(config);
  const wanted = wantedCommands();
  const faults = registrationFaults(wanted);
  if (faults.length > 0) throw new RenderError(faults.join('; '));
  const changes = changesBetween(await commands.read(), wanted);
  if (isChanged(changes) && !config.dryRun) await commands.write(wanted);
  const done = config.dryRun ? 'Nothing was changed: this was a dry run.' : 'Registered.';
  const where = config.server === null ? 'everywhere' : 'in one server';
  process.stdout.write(
    `${[...changeLines(changes), `${isChanged(changes) ? done : 'Nothing to do.'} (${where})`].join('\n')}\n`,
  );
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
  await live(log, lines, async ({ opened, isEnding, end }) => {
    const watch = opened.adopt(await watched('discord', config.watch, isEnding, log), ({ close }) => close());
    // The database is reached while the rest is loaded.
    const opening = import('../storage/open.ts').then(({ openRecords }) => openRecords(config.records, config.migrate));
    const [found, { openDesk }, { openPictures }, { openHandler }, { openRest }, { keepSwept }] = await Promise.all([
      opening,
      import('../../src/desk.ts'),
      import('../picture/pictures.ts'),
      import('./handle.ts'),
      import('./rest.ts'),
      import('../storage/sweeping.ts'),
    ]);
    const kept = opened.adopt(found, ({ close }) => close());
    const drawn = opened.adopt(openPictures(), ({ close }) => close());
    watch.follow({ tables: kept.tables, picturesWaiting: drawn.waiting });
    const { notice } = watch;
    const records = watch.records(kept);
    const pictures = watch.pictures(drawn);
    const desk = watch.desk(openDesk({ records, nowMs, randomBytes, timer }));
    const printPage = openPrinter(nowMs);
    opened.defer(keepSwept(records.privacy, nowMs, sweepsTo(log)));
    const handle = openHandler({ desk, records, pictures, printPage, log, notice, nowMs, timer, logId });
    // A connection that is lost for good ends the program: whoever keeps it running may start it again.
    const ports = { handle, rest: openRest(config, notice), log, notice, nowMs, wait: pause, lost: () => end(1) };
    if (config.kind === 'http') {
      const open = opened.adopt(await (await import('./http.ts')).openHttp(config, ports), ({ close }) => close());
      watch.follow({ isUp: () => true, underWay: open.underWay });
      return { mode: config.kind, port: open.port };
    }
    const open = opened.adopt(await (await import('./gateway.ts')).openGateway(config, ports), ({ close }) => close());
    const { shards, underWay } = open;
    watch.follow({ isUp: () => [...shards().values()].every((isUp) => isUp), shards, underWay });
    return { mode: config.kind };
  });
}

await begin('Ringwright on Discord', () => run(process.argv.slice(2), process.env));
