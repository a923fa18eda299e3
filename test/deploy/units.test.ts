import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { DEPLOY, fileText } from './repository.ts';
import { readUnit, unitFaults } from './unit-rules.ts';

const UNITS = readdirSync(join(DEPLOY, 'systemd'));
const PROGRAM = 'ringwright@.service';
const COPY = 'ringwright-backup.service';
const textOf = (unit: string) => fileText(`deploy/systemd/${unit}`);

const HAS_SYSTEMD = spawnSync('systemd-analyze', ['--version']).status === 0;

/** What the system's own reader says of units; the runtime is looked for where it is on this machine. */
function verified(texts: Readonly<Record<string, string>>): string {
  const folder = mkdtempSync(join(tmpdir(), 'ringwright-units-'));
  try {
    const names = Object.entries(texts).map(([name, text]) => {
      const file = join(folder, name.replace('@.', '@discord.'));
      writeFileSync(file, text.replaceAll('/usr/local/bin/node', process.execPath));
      return file;
    });
    return spawnSync('systemd-analyze', ['verify', ...names], { encoding: 'utf8' }).stderr;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Lines about the units of the machine itself are not ours. */
const ours = (said: string) => said.split('\n').filter((line) => line.includes('ringwright'));

describe('the units', () => {
  it('are a program, its copies, and the clock of these', () => {
    expect([...UNITS].sort()).toEqual([COPY, 'ringwright-backup.timer', PROGRAM]);
  });

  it.each(UNITS)('%s keeps every rule', (unit) => {
    expect(unitFaults(readUnit(textOf(unit)))).toEqual([]);
  });

  it('say why memory stays writable and executable', () => {
    for (const unit of [PROGRAM, COPY])
      expect(textOf(unit)).toMatch(/# MemoryDenyWriteExecute cannot be on: .+compiles/);
  });

  it.each([
    [PROGRAM, 'Restart=on-failure', 'Restert=on-failure', 'Restert is no key'],
    [PROGRAM, 'adapters/%i/main.ts', 'adapters/%i/begin.ts', 'adapters/slack/begin.ts'],
    [PROGRAM, '/usr/local/bin/node adapters', 'node adapters', 'path happens'],
    [PROGRAM, '/usr/local/bin/node', '/opt/node/bin/node', 'needs /opt/node'],
    [PROGRAM, 'adapters/%i/main.ts', '--version', 'no program'],
    [PROGRAM, 'User=ringwright', 'User=root', 'as root'],
    [PROGRAM, 'NoNewPrivileges=yes', 'NoNewPrivileges=no', 'NoNewPrivileges'],
    [PROGRAM, 'ProtectSystem=strict', 'ProtectSystem=yes', 'ProtectSystem'],
    [COPY, 'ProtectHome=yes\n', '', 'ProtectHome'],
    [PROGRAM, 'CapabilityBoundingSet=', 'CapabilityBoundingSet=CAP_CHOWN', 'CapabilityBoundingSet'],
    [PROGRAM, 'LockPersonality=yes', 'MemoryDenyWriteExecute=yes', 'could not compile'],
    [PROGRAM, 'SystemCallFilter=~@privileged', 'SystemCallFilter=~@privileged @resources', 'could not draw'],
    [PROGRAM, 'WorkingDirectory=/opt/ringwright', 'WorkingDirectory=/srv', 'somewhere else'],
    [PROGRAM, 'RINGWRIGHT_DATA=/var/lib', 'RINGWRIGHT_DATA=/srv', 'may not write'],
    [PROGRAM, 'Environment=RINGWRIGHT_DATA', 'Environment=RINGWRIGHT_DATE', 'reads RINGWRIGHT_DATE'],
    [PROGRAM, 'Environment=NODE_ENV', 'Environment=DISCORD_TOKEN=x\nEnvironment=NODE_ENV', 'in the open'],
    [PROGRAM, 'TimeoutStopSec=20s', 'TimeoutStopSec=15s', 'to end'],
    [PROGRAM, 'TimeoutStopSec=20s\n', '', 'to end'],
    [PROGRAM, 'Restart=on-failure', 'Restart=no', 'stays down'],
    [PROGRAM, 'StartLimitBurst=5\n', '', 'for ever'],
    [COPY, 'storage/backup.ts', 'storage/copy.ts', 'adapters/storage/copy.ts'],
    [COPY, 'PathExists=/var/lib/ringwright/records.db', 'PathExists=/var/lib/ringwright/kept.db', 'another file'],
    [COPY, '-%%H%%M%%S', '', 'one copy a day'],
    ['ringwright-backup.timer', 'OnCalendar=*-*-* 03:40\n', '', 'never comes'],
  ])('%s is refused with %j turned into %j', (unit, from, to, fault) => {
    const text = textOf(unit);
    expect(text).toContain(from);
    expect(unitFaults(readUnit(text.replace(from, to))).join('\n')).toContain(fault);
  });

  it('are refused where a line is no line', () => {
    expect(() => readUnit('[Unit]\nDescription\n')).toThrow(/Description/);
  });
});

describe.skipIf(!HAS_SYSTEMD)('the units, read by the system itself (needs systemd-analyze)', () => {
  const all = Object.fromEntries(UNITS.map((unit) => [unit, textOf(unit)]));

  it('are all as it wants them', () => {
    expect(ours(verified(all))).toEqual([]);
  });

  it('would be found wanting', () => {
    const wrong = { [PROGRAM]: textOf(PROGRAM).replace('ProtectHome=yes', 'ProtectHomes=yes') };
    expect(ours(verified(wrong)).join()).toContain('ProtectHomes');
  });
});
