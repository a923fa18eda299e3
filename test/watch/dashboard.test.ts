import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { parser } from '@prometheus-io/lezer-promql';
import { Ajv } from 'ajv';
import { createGenerator } from 'ts-json-schema-generator';
import { beforeAll, describe, expect, it } from 'vitest';
import { openMetrics } from '../../adapters/watch/metrics.ts';
import { type Exposition, readExposition } from '../support/exposition.ts';

type Target = { readonly refId: string; readonly expr: string; readonly legendFormat: string };
type Grid = { readonly x: number; readonly y: number; readonly w: number; readonly h: number };
type Panel = {
  readonly id: number;
  readonly title: string;
  readonly gridPos: Grid;
  readonly targets: readonly Target[];
};
type Dashboard = { readonly title: string; readonly panels: readonly Panel[] };

const dashboard = JSON.parse(
  readFileSync(new URL('../../deploy/dashboard.json', import.meta.url), 'utf8'),
) as Dashboard;
const targets = dashboard.panels.flatMap((panel) => panel.targets);

/** Labels that the collector adds to whatever it collects. */
const ADDED: readonly string[] = ['instance', 'job'];

/** What is wrong with an expression: where it cannot be read, and what of it nobody counts. */
function faultsIn(expr: string, labelsOf: ReadonlyMap<string, ReadonlySet<string>>): readonly string[] {
  const faults: string[] = [];
  const named: string[] = [];
  const labels: string[] = [];
  parser.parse(expr).iterate({
    enter: ({ type, name, from, to }) => {
      const words = expr.slice(from, to);
      if (type.isError) faults.push(`cannot be read at ${from}`);
      if (name === 'VectorSelector') named.push(/^[\w:]+/.exec(words)?.[0] ?? '');
      if (name === 'LabelName') labels.push(words);
    },
  });
  const counted = named.map((each) => labelsOf.get(each));
  for (const [at, found] of counted.entries()) if (found === undefined) faults.push(`nobody counts ${named[at]}`);
  for (const label of labels) {
    if (!counted.every((found) => found?.has(label)) && !ADDED.includes(label)) faults.push(`no label ${label}`);
  }
  if (named.length === 0) faults.push('counts nothing');
  return faults;
}

/** Every name there is to ask for, with its labels, from a program that has counted one of each. */
async function counted(): Promise<ReadonlyMap<string, ReadonlySet<string>>> {
  const sources = { shards: () => new Map([[0, true]]), underWay: () => 1, picturesWaiting: () => 1 };
  const metrics = openMetrics(
    'discord',
    () => sources,
    () => true,
  );
  metrics.question('convert', 'answered', 0.01);
  metrics.happened({ kind: 'payload', of: 'command', outcome: 'answered' });
  metrics.happened({ kind: 'fault', code: '429' });
  metrics.picture('drawn');
  metrics.store('bikes.save', 0.01);
  metrics.storeError('bikes.save', 'gone');
  const { samples }: Exposition = readExposition(await metrics.text());
  const names = new Map<string, Set<string>>();
  for (const { name, labels } of samples) {
    names.set(name, new Set([...(names.get(name) ?? []), ...Object.keys(labels)]));
  }
  return names;
}

let labelsOf: ReadonlyMap<string, ReadonlySet<string>>;
beforeAll(async () => {
  labelsOf = await counted();
});

/** What the published types of a dashboard say against it; nothing that they do not name passes. */
function openShape(): (value: unknown) => readonly string[] {
  const entry = createRequire(import.meta.url).resolve('@grafana/schema/package.json');
  const path = join(dirname(entry), 'dist/types/raw/dashboard/x/types.gen.d.ts');
  const generator = createGenerator({ path, type: 'Dashboard', skipTypeCheck: true, additionalProperties: false });
  const schema = generator.createSchema('Dashboard') as object;
  const validate = new Ajv({ strict: false }).compile(schema);
  return (value) =>
    validate(value) ? [] : (validate.errors ?? []).map((each) => `${each.instancePath} ${each.message}`);
}

describe('the dashboard', () => {
  it('is of the shape that its published types name', () => {
    const dashboardFaults = openShape();
    expect(dashboardFaults(dashboard)).toEqual([]);
    expect(dashboardFaults({ ...dashboard, colour: 'red' })).not.toEqual([]);
    const [first, ...rest] = dashboard.panels;
    expect(dashboardFaults({ ...dashboard, panels: [{ ...first, gridPos: { x: 'left' } }, ...rest] })).not.toEqual([]);
  });

  it('asks for nothing that is not counted, in words that can be read', () => {
    expect(targets.length).toBeGreaterThan(10);
    for (const { expr } of targets) expect([expr, ...faultsIn(expr, labelsOf)]).toEqual([expr]);
  });

  it.each([
    ['a bracket left open', 'sum(ringwright_ready'],
    ['a name that nobody counts', 'sum(ringwright_answer_total)'],
    ['a label that the name has not', 'sum by (outcome) (ringwright_ready)'],
    ['a matcher on such a label', 'ringwright_ready{command="gears"}'],
    ['nothing counted at all', 'vector(1)'],
  ])('would be found to have %s', (_, expr) => {
    expect(faultsIn(expr, labelsOf)).not.toEqual([]);
  });

  it('names in its legends only labels that are left', () => {
    for (const { expr, legendFormat } of targets) {
      const kept = /by \(([^)]*)\)/.exec(expr)?.[1]?.split(', ') ?? ADDED;
      const named = [...legendFormat.matchAll(/\{\{(\w+)\}\}/g)].map(([, label = '']) => label);
      expect(named.filter((label) => !kept.includes(label))).toEqual([]);
    }
  });

  it('shows every count of ours', () => {
    const ours = new Set(
      [...labelsOf.keys()].filter((name) => name.startsWith('ringwright_') && !/_(sum|count)$/.test(name)),
    );
    const asked = targets.map(({ expr }) => expr).join('\n');
    expect(ours.size).toBe(11);
    expect([...ours].filter((name) => !asked.includes(name))).toEqual([]);
  });

  it('has panels that do not lie over each other, each with a number of its own', () => {
    const { panels } = dashboard;
    expect(new Set(panels.map(({ id }) => id)).size).toBe(panels.length);
    const over = (a: Grid, b: Grid) => a.x < b.x + b.w && b.x < a.x + a.w && a.y < b.y + b.h && b.y < a.y + a.h;
    const overlaps = panels.flatMap((a, at) => panels.slice(at + 1).filter((b) => over(a.gridPos, b.gridPos)));
    expect(overlaps).toEqual([]);
    expect(dashboard.title).toBe('Ringwright');
  });
});
