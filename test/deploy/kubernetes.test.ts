import { beforeAll, describe, expect, it } from 'vitest';
import { PICTURE_PATH } from '../../adapters/slack/picture-address.ts';
import { EVENTS_PATH, INSTALL_PATH, REDIRECT_PATH } from '../../adapters/slack/register.ts';
import { at, changed, listAt, textAt } from './fields.ts';
import {
  builtObjects,
  HAS_KUBECTL,
  KUBERNETES,
  kustomizationsOf,
  missingPaths,
  nameOf,
  WAYS,
  writtenObjects,
} from './kubernetes-objects.ts';
import { MISTAKES, RULES } from './kubernetes-rules.ts';
import { kubernetesSchemas } from './kubernetes-schemas.ts';
import { yamlDocuments } from './repository.ts';

let schemaFaults: (object: unknown) => readonly string[];

beforeAll(async () => {
  schemaFaults = await kubernetesSchemas();
});

/** Every way as its files say it, and as it would be sent. */
const WRITTEN = WAYS.map((way) => [`${way}, as written`, () => writtenObjects(`${KUBERNETES}/${way}`)] as const);
const BUILT = WAYS.map((way) => [`${way}, as built`, () => builtObjects(way)] as const);

/** No fault of any schema or rule. */
function expectSound(objects: readonly unknown[]): void {
  expect(objects.length).toBeGreaterThan(10);
  expect(new Set(objects.map(nameOf)).size).toBe(objects.length);
  const misfits = objects.flatMap((each) => schemaFaults(each).map((fault) => `${nameOf(each)}: ${fault}`));
  expect(misfits).toEqual([]);
  const faults = Object.entries(RULES).flatMap(([name, rule]) => rule(objects).map((fault) => `${name}: ${fault}`));
  expect(faults).toEqual([]);
}

describe('what is sent to a cluster', () => {
  it.each(WAYS)('%s names only files that are there', (way) => {
    const found = kustomizationsOf(`${KUBERNETES}/${way}`);
    expect(found.length).toBeGreaterThan(2);
    expect(found.flatMap(missingPaths)).toEqual([]);
  });

  it.each(WRITTEN)('%s, fits the schemas and keeps every rule', (_, objects) => expectSound(objects()));

  it('reaches every address that a platform calls', () => {
    const paths = writtenObjects(`${KUBERNETES}/base`)
      .filter((each) => textAt(each, 'kind') === 'Ingress')
      .flatMap((each) => listAt(each, 'spec', 'rules', 0, 'http', 'paths'))
      .map((each) => ({ path: textAt(each, 'path'), exact: textAt(each, 'pathType') === 'Exact' }));
    const reached = (wanted: string) =>
      paths.some(({ path, exact }) => (exact ? wanted === path : wanted.startsWith(`${path}/`)));
    for (const wanted of ['/interactions', EVENTS_PATH, INSTALL_PATH, REDIRECT_PATH, `${PICTURE_PATH}a.png`])
      expect(reached(wanted), wanted).toBe(true);
    expect(reached('/metrics')).toBe(false);
    expect(reached('/readyz')).toBe(false);
  });
});

describe.skipIf(!HAS_KUBECTL)('what is sent to a cluster, built (needs kubectl)', () => {
  it.each(BUILT)('%s, fits the schemas and keeps every rule', (_, objects) => expectSound(objects()));

  it('is one process without an autoscaler for a club, and more of everything for many', () => {
    const club = builtObjects('overlays/club');
    const many = builtObjects('overlays/many');
    const kinds = (objects: readonly unknown[], kind: string) =>
      objects.filter((each) => textAt(each, 'kind') === kind);
    expect(kinds(club, 'HorizontalPodAutoscaler')).toEqual([]);
    expect(kinds(club, 'Deployment').map((each) => at(each, 'spec', 'replicas'))).toEqual([1, 1]);
    // An autoscaler and a number beside it would pull at each other.
    expect(kinds(many, 'Deployment').map((each) => at(each, 'spec', 'replicas'))).toEqual([undefined, undefined]);
    for (const each of kinds(many, 'HorizontalPodAutoscaler'))
      expect(Number(at(each, 'spec', 'minReplicas'))).toBeGreaterThanOrEqual(3);
    for (const each of kinds(many, 'Deployment'))
      expect(textAt(each, 'spec', 'template', 'spec', 'topologySpreadConstraints', 0, 'topologyKey')).toBe(
        'topology.kubernetes.io/zone',
      );
    // Discord's two ways exclude each other.
    for (const way of WAYS)
      expect(
        builtObjects(way).filter((each) => /^(Deployment|StatefulSet) ringwright-discord/.test(nameOf(each))).length,
        way,
      ).toBe(1);
  });
});

describe('the rules', () => {
  it.each(MISTAKES)('%s: catches in %s what is wrong with %s at %j', (rule, way, name, path, to, fault) => {
    const objects = writtenObjects(`${KUBERNETES}/${way}`);
    expect(objects.map(nameOf)).toContain(name);
    const wrong = objects.map((each) => (nameOf(each) === name ? changed(each, path, to) : each));
    expect(RULES[rule](wrong).join('\n')).toContain(fault);
  });

  it.each([
    [['spec', 'template', 'spec', 'containers', 0, 'livenesProbe'], {}, 'livenesProbe'],
    [['spec', 'replicas'], 'two', 'replicas'],
    [['spec', 'selector'], undefined, 'selector'],
    [['spec', 'strategy', 'rollingUpdate', 'maxUnavailible'], 0, 'maxUnavailible'],
    [['spec', 'template', 'metadata', 'lables'], {}, 'lables'],
    [['spec', 'template', 'spec', 'securityContext', 'runAsNonRoot'], 'yes', 'runAsNonRoot'],
    [['kind'], 'Deploymant', 'no kind'],
    [['apiVersion'], 'extensions/v1beta1', 'no kind'],
  ] as const)('of the schemas catch %j', (path, to, fault) => {
    const deployment = writtenObjects(`${KUBERNETES}/base`).find((each) => textAt(each, 'kind') === 'Deployment');
    expect(schemaFaults(deployment)).toEqual([]);
    expect(schemaFaults(changed(deployment, path, to)).join('\n')).toContain(fault);
  });

  it('of reading refuse a key that stands twice, and a path that leads nowhere', () => {
    expect(() => yamlDocuments('a: 1\na: 2\n')).toThrow(/unique/);
    expect(() => yamlDocuments('a: [1\n')).toThrow();
    expect(missingPaths({ folder: `${KUBERNETES}/base`, data: { resources: ['../parts/none', 'none.yaml'] } })).toEqual(
      [`${KUBERNETES}/parts/none`, `${KUBERNETES}/base/none.yaml`],
    );
  });
});
