import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { parser } from '@prometheus-io/lezer-promql';
import { describe, expect, it } from 'vitest';
import { openMetrics } from '../../adapters/watch/metrics.ts';
import { nameFaults } from './environment.ts';
import { at, listAt, recordAt, textAt } from './fields.ts';
import { KUBERNETES, nameOf, podsOf, WAYS, writtenObjects } from './kubernetes-objects.ts';
import { DEPLOY, fileText, isInRepository, yamlDocuments } from './repository.ts';

const RUNBOOK = fileText('deploy/README.md');
const SCRIPTS = Object.keys(recordAt(JSON.parse(fileText('package.json')), 'scripts'));
const [ALERTS] = yamlDocuments(fileText('deploy/alerts.yaml'));
const RULES = listAt(ALERTS, 'groups').flatMap((group) => listAt(group, 'rules'));

/** What the program really gives to whoever watches, by name. */
const METRICS = await (async () => {
  const shards = () => new Map([[0, true]]);
  const metrics = openMetrics(
    'discord',
    () => ({ shards }),
    () => true,
  );
  const text = await metrics.text();
  return [...text.matchAll(/^# TYPE (\S+) (\S+)$/gm)].flatMap(([, name = '', kind]) =>
    kind === 'histogram' ? [name, `${name}_bucket`, `${name}_count`, `${name}_sum`] : [name],
  );
})();

/** What the runbook has the collector call whatever it collects from us: it says by itself what it cannot reach. */
const [, JOB = ''] = /- job_name: (\w+)$/m.exec(RUNBOOK) ?? [];
const REACHED = `up{job="${JOB}"}`;

/** What in an expression is no expression, or asks for a metric that is not there. */
function queryFaults(query: string): readonly string[] {
  const faults: string[] = [];
  parser.parse(query).iterate({
    enter: ({ type, from, to, node }) => {
      const words = query.slice(from, to);
      if (type.isError) faults.push(`cannot be read at ${from}`);
      if (type.name !== 'Identifier' || node.parent?.type.name !== 'VectorSelector') return;
      const known = METRICS.includes(words) || query.startsWith(REACHED, from);
      if (!known) faults.push(`asks for ${words}`);
    },
  });
  return faults;
}

describe('the alerts', () => {
  it('ask for what is there, each for a while, and say what they mean', () => {
    expect(RULES.length).toBeGreaterThan(5);
    for (const rule of RULES) {
      expect(queryFaults(textAt(rule, 'expr')), textAt(rule, 'alert')).toEqual([]);
      expect(textAt(rule, 'for')).toMatch(/^\d+m$/);
      expect(textAt(rule, 'annotations', 'summary')).toMatch(/\.$/);
      expect(Object.keys(recordAt(rule)).sort()).toEqual(['alert', 'annotations', 'expr', 'for']);
    }
  });

  it('would be found wanting', () => {
    expect(queryFaults('ringwright_redy == 0')).toEqual(['asks for ringwright_redy']);
    expect(queryFaults('up{job="ringwrite"} == 0')).toEqual(['asks for up']);
    expect(queryFaults('sum by (code) (rate(ringwright_store_errors_total[5m])')).not.toEqual([]);
  });

  it('are explained in the runbook, all of them and no others', () => {
    const explained = [...RUNBOOK.matchAll(/^\| `(Ringwright\w+)` \|/gm)].map(([, name]) => name);
    expect(explained).toEqual(RULES.map((rule) => at(rule, 'alert')));
  });
});

/** Everything there is in a cluster; a secret is named by those who read it, with the keys that each of them wants. */
const OBJECTS = WAYS.flatMap((way) => writtenObjects(`${KUBERNETES}/${way}`));
const SECRETS: ReadonlyMap<string, ReadonlySet<string>> = new Map(
  podsOf(OBJECTS)
    .flatMap(({ pod }) => listAt(pod, 'spec', 'volumes'))
    .flatMap((volume) => listAt(volume, 'projected', 'sources'))
    .map((source) => [
      textAt(source, 'secret', 'name'),
      new Set(listAt(source, 'secret', 'items').map((item) => textAt(item, 'key'))),
    ]),
);
const CERTIFICATES = OBJECTS.flatMap((each) => listAt(each, 'spec', 'tls')).map((each) => textAt(each, 'secretName'));
const UNITS = readdirSync(join(DEPLOY, 'systemd')).map((unit) => unit.replace(/\.\w+$/, ''));
const NAMES = new Set([...OBJECTS.map((each) => textAt(each, 'metadata', 'name')), ...SECRETS.keys(), ...CERTIFICATES]);

const [COMPOSE] = yamlDocuments(fileText('deploy/compose.yaml'));
const SERVICES = recordAt(COMPOSE, 'services');
const PROFILES = Object.values(SERVICES).flatMap((service) => listAt(service, 'profiles'));

/** What commands to a cluster, to compose and to systemd name, and none of them has. */
function commandFaults(text: string): readonly string[] {
  const matches = (pattern: RegExp) => [...text.matchAll(pattern)].map(([, ...found]) => found);
  return [
    ...matches(/(?<![\w./-])(ringwright-[a-z]+(?:-[a-z]+)*)/g).flatMap(([name = '']) =>
      NAMES.has(name) || UNITS.includes(name) ? [] : [`nothing is called ${name}`],
    ),
    ...matches(/\b(job|deployment|statefulset)\/([a-z-]+)/g).flatMap(([kind, name]) =>
      OBJECTS.some((each) => nameOf(each).toLowerCase() === `${kind} ${name}`) ? [] : [`there is no ${kind} ${name}`],
    ),
    ...matches(/create secret generic (\S+)((?:[\s\\]+--from-file=\S+)+)/g).flatMap(([name = '', files = '']) => {
      const keys = [...files.matchAll(/--from-file=deploy\/secrets\/(\S+)/g)].map(([, key]) => key);
      const wanted = [...(SECRETS.get(name) ?? [])];
      return keys.sort().join() === wanted.sort().join() ? [] : [`${name} is read for ${wanted.join(' and ')}`];
    }),
    ...matches(/--profile ([a-z]+)/g).flatMap(([name]) => (PROFILES.includes(name) ? [] : [`no profile ${name}`])),
    ...matches(/docker compose .*?(?:exec|run --rm(?: -v \S+)?) ([a-z]+)/g).flatMap(([name = '']) =>
      name in SERVICES ? [] : [`no service ${name}`],
    ),
  ];
}

const KEPT_HERE = fileText('deploy/.gitignore')
  .split('\n')
  .filter((line) => line !== '' && !line.startsWith('#'))
  .map((line) => line.replace(/\/$/, ''));

/** A part of the runbook by its heading. */
function part(heading: string): string {
  return RUNBOOK.split(/^## /m).find((each) => each.startsWith(heading)) ?? '';
}

/** Whether a path is one that git is told to leave where it is made. */
function isKeptHere(path: string): boolean {
  return KEPT_HERE.some((kept) => `${path}/`.startsWith(`deploy/${kept}/`));
}

/** What a runbook names and the repository does not have. */
function runbookFaults(text: string): readonly string[] {
  const matches = (pattern: RegExp) => [...text.matchAll(pattern)].map(([, found = '']) => found);
  const headings = matches(/^#+ (.+)$/gm).map((heading) =>
    heading
      .toLowerCase()
      .replaceAll(/[^\w -]/g, '')
      .replaceAll(' ', '-'),
  );
  const paths = [
    ...matches(/\]\(([\w./-]+)\)/g).map((path) => `deploy/${path}`),
    ...matches(/\b(deploy\/[\w./-]*\w)/g).filter((path) => !isKeptHere(path)),
    ...matches(/\b(adapters\/[\w/-]+\.ts)/g),
    ...matches(/`((?:kubernetes|parts|overlays)\/[\w./-]+)`/g).map((path) =>
      path.startsWith('kubernetes') ? `deploy/${path}` : `deploy/kubernetes/${path}`,
    ),
  ];
  return [
    ...paths.filter((path) => !isInRepository(path)).map((path) => `${path} is not there`),
    ...matches(/\]\(#([\w-]+)\)/g)
      .filter((anchor) => !headings.includes(anchor))
      .map((anchor) => `no heading is #${anchor}`),
    ...matches(/npm run (?:-s )?([a-z:]+)/g)
      .filter((script) => !SCRIPTS.includes(script))
      .map((script) => `npm run ${script} does nothing`),
    ...matches(/\b((?:DISCORD|SLACK|DATABASE|WATCH|RINGWRIGHT|LOG)_[A-Z_]+)\b/g).flatMap((name) =>
      nameFaults({ [name]: '' }).filter((fault) => fault.startsWith('no program')),
    ),
    ...matches(/`((?:ringwright|process|nodejs)_[a-z_]+)`/g)
      .filter((metric) => !METRICS.includes(metric))
      .map((metric) => `nobody counts ${metric}`),
  ];
}

describe('the runbook', () => {
  it('names only what is there', () => {
    expect(runbookFaults(RUNBOOK)).toEqual([]);
  });

  it('commands only what is there', () => {
    expect(commandFaults(RUNBOOK)).toEqual([]);
  });

  it('registers the commands in each way to install, and brings new units with each upgrade', () => {
    for (const way of ['A. ', 'B. ', 'C. ', 'D. '])
      expect(part(way), way).toContain('adapters/discord/main.ts register');
    for (const when of ['A. ', 'Upgrade'])
      expect(part(when), when).toMatch(/cp deploy\/systemd\/\* \/etc\/systemd\/system\/ && systemctl daemon-reload/);
  });

  it('keeps each way to install to one screen', () => {
    const ways = RUNBOOK.split(/^## /m).filter((part) => /^[A-D]\. /.test(part));
    expect(ways.length).toBe(4);
    // Lines of a page at a usual size of letters; longer lines are broken, so they count for more.
    for (const way of ways) expect(way.split('\n').length, way.split('\n')[0]).toBeLessThanOrEqual(45);
  });

  it.each([
    ['kubectl apply policy `ringwright-monitoring`', 'ringwright-monitoring'],
    ['kubectl rollout status deployment/ringwright-discord-gateway', 'no deployment'],
    [
      'kubectl create secret generic ringwright-slack --from-file=deploy/secrets/slack-bot-token',
      'slack-signing-secret',
    ],
    ['kubectl create secret generic ringwright-database --from-file=database-url', 'database-url'],
    ['docker compose --profile slak up', 'slak'],
    ['docker compose -f deploy/compose.yaml exec databases psql', 'databases'],
  ])('would be caught commanding what is not: %s', (text, fault) => {
    expect(commandFaults(text).join('\n')).toContain(fault);
  });

  it.each([
    ['[x](nowhere.md)', 'deploy/nowhere.md'],
    ['[x](#nowhere)', '#nowhere'],
    ['cp deploy/sytemd/* /etc', 'deploy/sytemd'],
    ['install -d deploy/secret', 'deploy/secret'],
    ['node adapters/discord/begin.ts', 'adapters/discord/begin.ts'],
    ['patch `overlays/few`', 'overlays/few'],
    ['npm run restore', 'npm run restore'],
    ['set `DISCORD_TOKN`', 'DISCORD_TOKN'],
    ['look at `ringwright_answer_total`', 'ringwright_answer_total'],
  ])('would be caught naming what is not: %s', (text, fault) => {
    expect(runbookFaults(text).join('\n')).toContain(fault);
  });
});
