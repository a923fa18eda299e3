import { randomBytes } from 'node:crypto';
import { setTimeout as wait } from 'node:timers/promises';
import { printJobSheet } from '../../adapters/print/job-sheet.ts';
import { timer } from '../../adapters/program/machine.ts';
import { type OpenApp, openApp } from '../../adapters/slack/app.ts';
import type { Config } from '../../adapters/slack/config.ts';
import { openHandler } from '../../adapters/slack/handle.ts';
import { keyFrom, openInstallations } from '../../adapters/slack/installations.ts';
import { openPeople } from '../../adapters/slack/people.ts';
import { servePicture } from '../../adapters/slack/picture-address.ts';
import { openShooter, wayOf } from '../../adapters/slack/shots.ts';
import type { OpenRecords } from '../../adapters/storage/open.ts';
import { openDesk } from '../../src/desk.ts';
import type { Pictures } from '../../src/draw/pictures.ts';
import type { Log } from '../../src/log.ts';
import type { Printable } from '../../src/request.ts';
import { type Double, SIGNING_SECRET } from './slack-double.ts';

export const STATE_SECRET = 'a-state-secret-of-thirty-two-characters';

export type Program = {
  readonly app: OpenApp;
  readonly lines: readonly { readonly level: string; readonly text: string; readonly data: object }[];
  readonly address: string;
};

/** The whole adapter in front of the double, wired as `main` wires it, with pictures that cost nothing. */
export async function openProgram(
  double: Double,
  records: OpenRecords,
  change: Partial<Config> = {},
): Promise<Program> {
  const lines: { level: string; text: string; data: object }[] = [];
  const line = (level: string) => (data: object, text: string) => void lines.push({ level, data, text });
  const log: Log = { debug: line('debug'), info: line('info'), warn: line('warn'), error: line('error') };
  const config: Config = {
    api: double.api,
    logLevel: 'info',
    records: { path: '' },
    migrate: 'start',
    watch: null,
    receiving: { kind: 'http', signingSecret: SIGNING_SECRET },
    tenancy: { kind: 'one', botToken: 'xoxb-one' },
    host: '127.0.0.1',
    port: 0,
    pictures: { kind: 'none' },
    publicUrl: null,
    ...change,
  };
  const nowMs = () => Date.now();
  const pause = (ms: number) => wait(ms, undefined, { ref: false });
  const png = Uint8Array.of(0x89, 0x50, 0x4e, 0x47);
  const pictures: Pictures = { png: () => Promise.resolve({ kind: 'drawn', png }), close: () => Promise.resolve() };
  const way = wayOf(config.pictures, pictures);
  const installations =
    config.tenancy.kind === 'one'
      ? null
      : openInstallations(records.installations, keyFrom(config.tenancy.stateSecret, 'installations'), nowMs, log);
  const ports = {
    desk: openDesk({ records, nowMs, randomBytes }),
    records,
    people: openPeople(nowMs, timer),
    shots: openShooter(way, nowMs, pause),
    printPage: ({ sheet, paper }: Printable) => printJobSheet(sheet, paper, nowMs()),
    log,
    nowMs,
    timer,
    logId: () => 'abcd1234',
  };
  const app = await openApp(config, {
    handle: openHandler(ports, async (team) => installations?.remove(team)),
    servePicture: way.kind === 'address' ? (name) => servePicture(name, way.secret, pictures, records, nowMs()) : null,
    installations,
    log,
    wait: pause,
  });
  return { app, lines, address: `http://127.0.0.1:${app.port ?? config.port}` };
}
