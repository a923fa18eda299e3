import { randomBytes } from 'node:crypto';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { ConfigError } from '../../src/config-error.ts';
import type { Pictures } from '../../src/draw/pictures.ts';
import { type Person, type Place, readPerson, readPlace } from '../../src/records/place.ts';
import { StorageAway } from '../../src/records/storage-away.ts';
import { whereKept } from '../../src/records/where.ts';
import type { Printable } from '../../src/request.ts';
import { logId, nowMs, pause, timer } from '../program/machine.ts';
import { recordPlace } from '../settings/record-place.ts';
import { type Env, readSecretFile } from '../settings/secret-files.ts';
import { isSetUp, PLATFORMS, readArgs, togetherFault } from './config.ts';
import type { Payloads } from './sent.ts';

/** Pictures in a message that is only shown have an address that leads nowhere. */
const EXAMPLE_ADDRESS = 'https://ringwright.example.org';

const print = (line: string) => process.stdout.write(`${line}\n`);

/** A fault of ours by its name and code: its message may hold what somebody typed, or a setting. */
const fault = (error: unknown) => {
  if (error instanceof ConfigError) {
    process.stderr.write(`Ringwright: ${error.message}\n`);
    return;
  }
  const code = error instanceof Error && 'code' in error ? ` (${String(error.code)})` : '';
  process.stderr.write(`Ringwright: ${error instanceof Error ? error.name : 'something'} went wrong${code}\n`);
};

async function printPage({ sheet, paper }: Printable): Promise<Uint8Array> {
  return (await import('../print/job-sheet.ts')).printJobSheet(sheet, paper, nowMs());
}

/** The platforms, each with the reader of its settings. */
async function platforms() {
  const [discord, slack] = await Promise.all([import('../discord/config.ts'), import('../slack/config.ts')]);
  return [
    {
      ...PLATFORMS.discord,
      read: (env: Env) => discord.readConfig(env, readSecretFile),
      main: '../discord/main.ts',
    },
    { ...PLATFORMS.slack, read: (env: Env) => slack.readConfig(env, readSecretFile), main: '../slack/main.ts' },
  ];
}

async function start(env: Env, port: number): Promise<void> {
  const ready = (await platforms()).filter((platform) => isSetUp(platform, env));
  if (ready.length === 0) return practise(env, port);
  const why = togetherFault(ready, env);
  if (why !== null) throw new ConfigError('start-settings', why);
  print(`Starting ${ready.map(({ name }) => name).join(' and ')}.`);
  const { runTogether } = await import('./together.ts');
  process.exitCode = await runTogether(ready.map(({ main }) => fileURLToPath(new URL(main, import.meta.url))));
}

async function practise(env: Env, port: number): Promise<void> {
  const { openPractice } = await import('../practice/server.ts');
  const { openRecords } = await import('../storage/open.ts');
  const { openPictures } = await import('../picture/pictures.ts');
  const { FONT } = await import('../picture/font.ts');
  const { sentTo } = await import('./sent.ts');
  const kept = whereKept({ RINGWRIGHT_DATA: env.RINGWRIGHT_DATA });
  const path = join('path' in kept ? dirname(kept.path) : '.', 'practice.db');
  const pictures = openPictures();
  const messages = { Discord: discordMessages(pictures), Slack: await slackMessages() };
  const practice = await openPractice(
    {
      openRecords: () => openRecords({ path }),
      eraseRecords: async () => {
        for (const ending of ['', '-wal', '-shm']) await rm(path + ending, { force: true });
      },
      pictures,
      printPage,
      sent: (given) => sentTo(messages, given, fault),
      fonts: FONT.fontFiles,
      nowMs,
      randomBytes,
      fault,
    },
    port,
  );
  print('No platform keys found: opening the practice room.');
  for (const taken of practice.taken) print(`Port ${taken} is taken; trying the next.`);
  print(`\n  ${practice.address}\n`);
  print('Open this address in a browser on this machine. It works without a network.');
  print(`What you try is kept in ${path}; the page can erase it. To stop: Ctrl+C.`);
  const end = async () => {
    await practice.close();
    await pictures.close();
    process.exit(0);
  };
  process.once('SIGTERM', end).once('SIGINT', end);
}

const NO_LOG = { debug: () => undefined, info: () => undefined, warn: () => undefined, error: () => undefined };

/** The very messages the Discord adapter would send for an answer that was already given. */
function discordMessages(pictures: Pictures): Payloads {
  return async ({ reply, request, who, records }) => {
    const { answer } = await import('../discord/answer.ts');
    const desk = { ask: () => Promise.resolve(reply) };
    const ports = { desk, records, pictures, printPage, log: NO_LOG, nowMs, timer, logId };
    const scene = {
      id: '1',
      application: '1',
      token: '',
      visitor: { who, roles: [], runsPlace: false },
      server: '1',
      channel: '1',
      mayPinMessages: false,
      botMay: 0n,
      attachmentBytes: 10 * 1024 * 1024,
      message: null,
    };
    const { where, posts } = await answer(request, scene, ports, { where: 'private' });
    return posts.map(({ body, files }) => ({
      seenBy: seenBy(where),
      message: body,
      files: files.map(({ name, type, data }) => ({ name, type, bytes: data.length })),
    }));
  };
}

/** The very messages the Slack adapter would send; nothing is uploaded, so its pictures have an address. */
async function slackMessages(): Promise<Payloads> {
  const { openPeople } = await import('../slack/people.ts');
  const { openShooter } = await import('../slack/shots.ts');
  const people = openPeople(nowMs, timer);
  const way = { kind: 'address', base: EXAMPLE_ADDRESS, secret: randomBytes(32) } as const;
  const shots = openShooter(way, nowMs, pause);
  return async ({ reply, request, who, records }) => {
    const { answered } = await import('../slack/answer.ts');
    const desk = { ask: () => Promise.resolve(reply) };
    const ports = { desk, records, people, shots, printPage, log: NO_LOG, nowMs, timer, logId };
    const scene = {
      id: '1',
      team: 'T1',
      user: 'U1',
      who,
      channel: 'C1',
      thread: null,
      threaded: true,
      trigger: null,
      address: null,
      mine: null,
      view: null,
    };
    const { where, posts } = await answered(reply, request, { scene, web: null }, ports, { where: 'private' });
    return posts.map((message) => ({ seenBy: seenBy(where), message }));
  };
}

function seenBy(where: 'private' | 'public' | 'update'): string {
  return where === 'public' ? 'everybody' : 'whoever asked';
}

async function doctor(env: Env): Promise<void> {
  const { examine, findingLine } = await import('./doctor.ts');
  const { openRecords } = await import('../storage/open.ts');
  const { folderFault } = await import('../storage/folder.ts');
  const { strangers } = await import('../settings/strangers.ts');
  const place = recordPlace(env, readSecretFile);
  const tryStorage = async () => {
    if (place.kind === 'fault') throw new ConfigError('records-settings', place.words);
    const { where } = place;
    const why = 'path' in where ? await folderFault(dirname(where.path)) : null;
    if (why !== null) throw new ConfigError('records-folder', why);
    // Whoever only looks brings no tables up to date: after that there is no way back to an older program.
    const records = await openRecords(where, 'wait');
    const found = 'path' in where ? `${where.path} can be opened and written` : 'the server of DATABASE_URL answers';
    try {
      await records.settings.read(placeNamed('terminal'));
      return found;
    } catch (error) {
      if (!(error instanceof StorageAway) || error.code !== 'tables') throw error;
      return `${found}; its tables are still to be made or brought up to date: a program does it when it starts, or npm run migrate`;
    } finally {
      await records.close();
    }
  };
  const findings = await examine({
    env,
    runtime: process.versions.node,
    nowMs: nowMs(),
    tryStorage,
    platforms: await platforms(),
    strangers: strangers(env),
  });
  for (const finding of findings) print(findingLine(finding));
  const wrong = findings.filter(({ kind }) => kind === 'wrong').length;
  print(wrong === 0 ? '\nEverything needed is there.' : `\nTo be put right: ${wrong}.`);
  process.exitCode = wrong === 0 ? 0 : 1;
}

async function selftest(): Promise<void> {
  const { selfTest } = await import('./selftest.ts');
  const { openDesk } = await import('../../src/desk.ts');
  const { openRecords } = await import('../storage/open.ts');
  const folder = await mkdtemp(join(tmpdir(), 'ringwright-selftest-'));
  const records = await openRecords({ path: join(folder, 'records.db') });
  try {
    const place = placeNamed('selftest');
    const desk = openDesk({ records, nowMs, randomBytes });
    const pinPeople = [personNamed('moderator'), personNamed('second-moderator')];
    await records.settings.change({ place, person: personNamed('moderator') }, { pinPeople, approvals: true }, nowMs());
    const tested = await selfTest((who, line) => {
      const [command = ''] = line.split(' ', 1);
      const request = { command, setup: line.slice(command.length).trim() };
      return desk.ask({ request, visitor: { who: { place, person: personNamed(who) }, roles: [], runsPlace: false } });
    });
    for (const line of tested.lines) print(line);
    print(`\n${tested.passed} passed, ${tested.failed} failed.`);
    process.exitCode = tested.failed === 0 ? 0 : 1;
  } finally {
    await records.close();
    await rm(folder, { recursive: true, force: true });
  }
}

function placeNamed(name: string): Place {
  const place = readPlace(name);
  if (place === null) throw new TypeError('no place');
  return place;
}

function personNamed(name: string): Person {
  const person = readPerson(name);
  if (person === null) throw new TypeError('no person');
  return person;
}

const told = readArgs(process.argv.slice(2));
try {
  if (told.kind === 'refused') {
    process.stderr.write(`${told.words}\n`);
    process.exitCode = 2;
  } else if (told.kind === 'start') await start(process.env, told.port);
  else if (told.kind === 'doctor') await doctor(process.env);
  else await selftest();
} catch (error) {
  fault(error);
  process.exitCode = 1;
}
