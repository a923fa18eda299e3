import { parser } from '@prometheus-io/lezer-promql';
import { describe, expect, it } from 'vitest';
import { openMetrics } from '../../adapters/watch/metrics.ts';
import { nameFaults } from './environment.ts';
import { at, listAt, recordAt, textAt } from './fields.ts';
import { fileText, isInRepository, yamlDocuments } from './repository.ts';

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

/** What in an expression is no expression, or asks for a metric that is not there. */
function queryFaults(query: string): readonly string[] {
  const faults: string[] = [];
  parser.parse(query).iterate({
    enter: ({ type, from, to, node }) => {
      const words = query.slice(from, to);
      if (type.isError) faults.push(`cannot be read at ${from}`);
      if (type.name === 'Identifier' && node.parent?.type.name === 'VectorSelector' && !METRICS.includes(words))
        faults.push(`asks for ${words}`);
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
    expect(queryFaults('sum by (code) (rate(ringwright_store_errors_total[5m])')).not.toEqual([]);
  });

  it('are explained in the runbook, all of them and no others', () => {
    const explained = [...RUNBOOK.matchAll(/^\| `(Ringwright\w+)` \|/gm)].map(([, name]) => name);
    expect(explained).toEqual(RULES.map((rule) => at(rule, 'alert')));
  });
});

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
    ...matches(/\b(deploy\/(?!secrets|\.env`)[\w./-]*\w)/g),
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
    ...matches(/`(ringwright_[a-z_]+)`/g)
      .filter((metric) => !METRICS.includes(metric))
      .map((metric) => `nobody counts ${metric}`),
  ];
}

describe('the runbook', () => {
  it('names only what is there', () => {
    expect(runbookFaults(RUNBOOK)).toEqual([]);
  });

  it('keeps each way to install to one screen', () => {
    const ways = RUNBOOK.split(/^## /m).filter((part) => /^[A-D]\. /.test(part));
    expect(ways.length).toBe(4);
    // Lines of a page at a usual size of letters; longer lines are broken, so they count for more.
    for (const way of ways) expect(way.split('\n').length, way.split('\n')[0]).toBeLessThanOrEqual(45);
  });

  it.each([
    ['[x](nowhere.md)', 'deploy/nowhere.md'],
    ['[x](#nowhere)', '#nowhere'],
    ['cp deploy/sytemd/* /etc', 'deploy/sytemd'],
    ['node adapters/discord/begin.ts', 'adapters/discord/begin.ts'],
    ['patch `overlays/few`', 'overlays/few'],
    ['npm run restore', 'npm run restore'],
    ['set `DISCORD_TOKN`', 'DISCORD_TOKN'],
    ['look at `ringwright_answer_total`', 'ringwright_answer_total'],
  ])('would be caught naming what is not: %s', (text, fault) => {
    expect(runbookFaults(text).join('\n')).toContain(fault);
  });
});
