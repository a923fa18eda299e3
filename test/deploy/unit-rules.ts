import { whereKept } from '../../src/records/where.ts';
import { nameFaults, type Told } from './environment.ts';
import { FAREWELL_S, seconds } from './farewell.ts';
import { isInRepository } from './repository.ts';

/** The sections of a unit, each with its lines in order; a key may stand more than once. */
export type Unit = ReadonlyMap<string, readonly (readonly [key: string, value: string])[]>;

export function readUnit(text: string): Unit {
  const unit = new Map<string, (readonly [string, string])[]>();
  let lines: (readonly [string, string])[] = [];
  for (const line of text.split('\n')) {
    const [, section] = /^\[(\w+)\]$/.exec(line) ?? [];
    const [, key, value = ''] = /^(\w+)=(.*)$/.exec(line) ?? [];
    if (section !== undefined) {
      lines = [];
      unit.set(section, lines);
    } else if (key !== undefined) lines.push([key, value]);
    else if (line !== '' && !line.startsWith('#')) throw new TypeError(`no line of a unit: ${line}`);
  }
  return unit;
}

/** Keys by section, as systemd.unit(5), systemd.service(5), systemd.exec(5), systemd.kill(5), systemd.resource-control(5)
 * and systemd.timer(5) name them: those we use. Another one is a fault until somebody has looked it up. */
const KEYS: Readonly<Record<string, readonly string[]>> = {
  Unit: ['Description', 'Wants', 'After', 'StartLimitIntervalSec', 'StartLimitBurst', 'ConditionPathExists'],
  Service: [
    ...[
      'Type',
      'ExecStart',
      'ExecStartPost',
      'Restart',
      'RestartSec',
      'TimeoutStartSec',
      'TimeoutStopSec',
      'KillSignal',
    ],
    ...['WorkingDirectory', 'EnvironmentFile', 'Environment', 'User', 'UMask', 'Nice', 'IOSchedulingClass'],
    ...['StateDirectory', 'StateDirectoryMode', 'CacheDirectory', 'CacheDirectoryMode'],
    ...['MemoryHigh', 'MemoryMax', 'TasksMax', 'NoNewPrivileges', 'RemoveIPC', 'LockPersonality'],
    ...['ProtectSystem', 'ProtectHome', 'ProtectClock', 'ProtectHostname', 'ProtectProc', 'ProtectControlGroups'],
    ...['ProtectKernelLogs', 'ProtectKernelModules', 'ProtectKernelTunables'],
    ...['PrivateTmp', 'PrivateDevices', 'PrivateUsers', 'PrivateNetwork'],
    ...['RestrictAddressFamilies', 'RestrictNamespaces', 'RestrictRealtime', 'RestrictSUIDSGID'],
    ...['CapabilityBoundingSet', 'AmbientCapabilities'],
    ...['SystemCallArchitectures', 'SystemCallFilter', 'SystemCallErrorNumber'],
  ],
  Timer: ['OnCalendar', 'RandomizedDelaySec', 'Persistent'],
  Install: ['WantedBy'],
};

/** What a service must be kept from. */
const KEPT_FROM: Readonly<Record<string, string>> = {
  NoNewPrivileges: 'yes',
  ProtectSystem: 'strict',
  ProtectHome: 'yes',
  PrivateTmp: 'yes',
  PrivateDevices: 'yes',
  ProtectKernelModules: 'yes',
  ProtectKernelTunables: 'yes',
  RestrictSUIDSGID: 'yes',
  RestrictNamespaces: 'yes',
  CapabilityBoundingSet: '',
};

/** Where the checkout lies, and the folders that the unit makes or that every system has. */
export const HOME = '/opt/ringwright';
const ON_EVERY_SYSTEM: readonly string[] = ['/bin/sh', '/usr/bin/find', '/usr/local/bin/node'];

/** The platforms that a template stands for. */
const INSTANCES = ['discord', 'slack'] as const;

export function unitFaults(unit: Unit): readonly string[] {
  const faults: string[] = [];
  for (const [section, lines] of unit)
    for (const [key] of lines)
      if (!(KEYS[section] ?? []).includes(key)) faults.push(`${key} is no key of ${section} that is known here`);
  if (unit.has('Service')) faults.push(...serviceFaults(unit));
  if (unit.has('Timer') && valuesOf(unit, 'Timer', 'OnCalendar').length === 0) faults.push('never comes');
  return faults;
}

function valuesOf(unit: Unit, section: string, key: string): readonly string[] {
  return (unit.get(section) ?? []).filter(([name]) => name === key).map(([, value]) => value);
}

function serviceFaults(unit: Unit): readonly string[] {
  const values = (key: string) => valuesOf(unit, 'Service', key);
  const faults = Object.entries(KEPT_FROM)
    .filter(([key, value]) => values(key).join() !== value || values(key).length === 0)
    .map(([key]) => `is not kept from what ${key} keeps it from`);
  if (values('User').length !== 1 || values('User')[0] === 'root') faults.push('runs as root');
  if (values('MemoryDenyWriteExecute').length > 0) faults.push('could not compile');
  // The thread that draws lowers its own priority, and a call that is refused would end it.
  if (values('SystemCallFilter').some((list) => /^~.*@resources/.test(list))) faults.push('could not draw');
  if (values('WorkingDirectory')[0] !== HOME) faults.push('begins somewhere else');
  faults.push(...pathFaults(values('ExecStart').concat(values('ExecStartPost'))));
  faults.push(...nameFaults(toldBy(unit)));
  const made = values('StateDirectory')
    .flatMap((names) => names.split(' '))
    .map((name) => `/var/lib/${name}`);
  if (!made.includes(toldBy(unit).RINGWRIGHT_DATA ?? '')) faults.push('keeps things where it may not write');
  const condition = valuesOf(unit, 'Unit', 'ConditionPathExists')[0];
  const kept = whereKept({ RINGWRIGHT_DATA: toldBy(unit).RINGWRIGHT_DATA ?? '' });
  if (condition !== undefined && 'path' in kept && condition !== kept.path) faults.push('waits for another file');
  // A copy is refused where one by its name is there, and one more is made before an upgrade.
  if (values('ExecStart').some((command) => /\$\(date (?!.*%%S)/.test(command))) faults.push('makes one copy a day');
  const running = values('Type')[0] !== 'oneshot';
  if (running && !(seconds(values('TimeoutStopSec')[0] ?? '') > FAREWELL_S))
    faults.push(`needs ${FAREWELL_S} s to end`);
  if (running && values('Restart')[0] !== 'on-failure') faults.push('stays down');
  if (running && valuesOf(unit, 'Unit', 'StartLimitBurst').length === 0) faults.push('tries for ever');
  return faults;
}

export function toldBy(unit: Unit): Told {
  const pairs = valuesOf(unit, 'Service', 'Environment').map((line) => {
    // Quoted as a whole where there is a blank in it (systemd.exec(5), Environment=).
    const [, name = '', value = ''] = /^(\w+)=(.*)$/.exec(line.replace(/^"(.*)"$/, '$1')) ?? [];
    return [name, value] as const;
  });
  return Object.fromEntries(pairs);
}

/** Programs of ours that are not in the repository, and others that not every system has. */
function pathFaults(commands: readonly string[]): readonly string[] {
  return commands.flatMap((command) => {
    const faults: string[] = [];
    const ours = /adapters\/[\w%/-]+\.ts/.exec(command)?.[0];
    for (const instance of INSTANCES) {
      const path = ours?.replaceAll('%i', instance);
      if (path !== undefined && !isInRepository(path)) faults.push(`starts ${path}, which is not there`);
    }
    if (ours === undefined && command.includes('node')) faults.push('starts no program');
    for (const path of command.match(/(?<![\w-])\/(?:usr|bin|opt)\/[\w./-]+/g) ?? [])
      if (!ON_EVERY_SYSTEM.includes(path)) faults.push(`needs ${path}`);
    if (!command.startsWith('/')) faults.push('starts what the path happens to find');
    return faults;
  });
}
