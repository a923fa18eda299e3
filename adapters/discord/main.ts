import { randomBytes } from 'node:crypto';
import { setTimeout as wait } from 'node:timers/promises';
import { pino } from 'pino';
import { openDesk } from '../../src/desk.ts';
import type { Printable } from '../../src/request.ts';
import { ConfigError } from '../settings/config-error.ts';
import { type Env, readSecretFile } from '../settings/secret-files.ts';
import { readConfig, readRegisterConfig } from './config.ts';

/** Begins what the words behind the program ask for: to answer until it is told to stop, or to register the commands. */
async function run([task = 'answer', ...args]: readonly string[], env: Env): Promise<void> {
  if (task === 'register') return register(env, args);
  if (task !== 'answer') throw new ConfigError('discord-words', 'nothing, or register, stands behind the program');
  await serve(env);
}

async function register(env: Env, args: readonly string[]): Promise<void> {
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
  const config = readConfig(env, readSecretFile);
  const log = pino({ level: config.logLevel });
  const { openRecords } = await import('../storage/open.ts');
  const { openPictures } = await import('../picture/pictures.ts');
  const { keepSwept } = await import('../storage/sweeping.ts');
  const { openHandler } = await import('./handle.ts');
  const { errorData } = await import('../../src/log.ts');
  const { openRest } = await import('./rest.ts');
  const records = await openRecords(config.records);
  const pictures = openPictures();
  const nowMs = () => Date.now();
  const pause = (ms: number) => wait(ms, undefined, { ref: false });
  const desk = openDesk({ records, nowMs, randomBytes });
  const logId = () => randomBytes(4).toString('hex');
  const printPage = async ({ sheet, paper }: Printable) =>
    (await import('../print/job-sheet.ts')).printJobSheet(sheet, paper, nowMs());
  const handle = openHandler({ desk, records, pictures, printPage, log, nowMs, wait: pause, logId });
  const stopSweeping = keepSwept(records.privacy, nowMs, {
    swept: (swept) => log.info(swept, 'swept what was kept for long enough'),
    fault: (error) => log.warn(errorData(error), 'could not sweep; tomorrow again'),
  });

  let ending = false;
  const end = async (code: number) => {
    if (ending) return;
    ending = true;
    log.info({}, 'ending: no more is taken, what has begun is finished');
    stopSweeping();
    await open.close();
    await pictures.close();
    await records.close();
    log.info({}, 'ended');
    process.exit(code);
  };
  // Whoever keeps the program running is told by its exit code, and may start it again.
  const lost = () => void end(1);
  const ports = { handle, rest: openRest(config), log, nowMs, wait: pause, lost };
  const open =
    config.kind === 'http'
      ? await (await import('./http.ts')).openHttp(config, ports)
      : await (await import('./gateway.ts')).openGateway(config, ports);
  log.info({ mode: config.kind, ...('port' in open ? { port: open.port } : {}) }, 'answering');
  process.once('SIGTERM', () => end(0)).once('SIGINT', () => end(0));
}

try {
  await run(process.argv.slice(2), process.env);
} catch (error) {
  const told = error instanceof Error && error.name === 'ConfigError' ? error.message : 'it could not begin';
  const code = error instanceof Error && 'code' in error ? ` (${String(error.code)})` : '';
  process.stderr.write(`Ringwright on Discord: ${told}${told === 'it could not begin' ? code : ''}\n`);
  process.exitCode = 1;
}
