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
import { farewellFaults, restrictionFaults, settingFaults, shardFaults } from './kubernetes-pods.ts';
import { kubernetesSchemas } from './kubernetes-schemas.ts';
import { portFaults, referenceFaults, selectorFaults, shutFaults } from './kubernetes-ties.ts';
import { yamlDocuments } from './repository.ts';

const RULES = {
  restricted: restrictionFaults,
  farewell: farewellFaults,
  settings: settingFaults,
  shards: shardFaults,
  selectors: selectorFaults,
  ports: portFaults,
  references: referenceFaults,
  shut: shutFaults,
} as const;

let schemaFaults: (object: unknown) => readonly string[];

beforeAll(async () => {
  schemaFaults = await kubernetesSchemas();
});

/** Every way as its files say it, and as it would be sent where the builder is on this machine. */
const SHAPES: readonly (readonly [string, () => readonly unknown[]])[] = WAYS.flatMap((way) => [
  [`${way}, as written`, () => writtenObjects(`${KUBERNETES}/${way}`)] as const,
  ...(HAS_KUBECTL ? [[`${way}, as built`, () => builtObjects(way)] as const] : []),
]);

describe('what is sent to a cluster', () => {
  it.skipIf(HAS_KUBECTL)('is not looked at as built: there is no kubectl on this machine', () => undefined);

  it.each(WAYS)('%s names only files that are there', (way) => {
    const found = kustomizationsOf(`${KUBERNETES}/${way}`);
    expect(found.length).toBeGreaterThan(2);
    expect(found.flatMap(missingPaths)).toEqual([]);
  });

  it.each(SHAPES)('%s fits the schemas, without a field they do not know', (_, objects) => {
    const all = objects();
    expect(all.length).toBeGreaterThan(10);
    expect(all.flatMap((each) => schemaFaults(each).map((fault) => `${nameOf(each)}: ${fault}`))).toEqual([]);
    expect(new Set(all.map(nameOf)).size).toBe(all.length);
  });

  it.each(SHAPES)('%s keeps every rule', (_, objects) => {
    const all = objects();
    const faults = Object.fromEntries(Object.entries(RULES).map(([name, rule]) => [name, rule(all)]));
    expect(faults).toEqual(Object.fromEntries(Object.keys(RULES).map((name) => [name, []])));
  });

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

  it.runIf(HAS_KUBECTL)('is one process without an autoscaler for a club, and more of everything for many', () => {
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

const POD = ['spec', 'template', 'spec'] as const;
const CONTAINER = [...POD, 'containers', 0] as const;

type Mutation = readonly [
  rule: keyof typeof RULES,
  way: 'base' | 'gateway',
  object: string,
  path: readonly (string | number)[],
  to: unknown,
  fault: string,
];

/** Whatever a rule is there to catch, done on purpose. */
const MUTATIONS: readonly Mutation[] = [
  ['restricted', 'base', 'Deployment ringwright-discord', [...POD, 'securityContext', 'runAsNonRoot'], false, 'root'],
  ['restricted', 'base', 'Deployment ringwright-slack', [...POD, 'securityContext', 'runAsUser'], 0, 'number'],
  ['restricted', 'base', 'Job ringwright-migrate', [...POD, 'securityContext', 'seccompProfile'], undefined, 'seccomp'],
  ['restricted', 'base', 'Job ringwright-migrate', [...POD, 'automountServiceAccountToken'], true, 'token'],
  ['restricted', 'base', 'Job ringwright-migrate', [...POD, 'serviceAccountName'], undefined, 'account'],
  ['restricted', 'base', 'Deployment ringwright-slack', [...POD, 'hostNetwork'], true, 'hostNetwork'],
  ['restricted', 'base', 'Deployment ringwright-slack', [...POD, 'volumes'], [{ hostPath: {} }], "machine's files"],
  [
    'restricted',
    'gateway',
    'StatefulSet ringwright-discord-gateway',
    [...CONTAINER, 'securityContext', 'readOnlyRootFilesystem'],
    undefined,
    'may write',
  ],
  [
    'restricted',
    'base',
    'Deployment ringwright-discord',
    [...CONTAINER, 'securityContext', 'allowPrivilegeEscalation'],
    true,
    'gain rights',
  ],
  [
    'restricted',
    'base',
    'Deployment ringwright-discord',
    [...CONTAINER, 'securityContext', 'capabilities', 'drop'],
    ['CHOWN'],
    'keeps',
  ],
  [
    'restricted',
    'base',
    'Deployment ringwright-discord',
    [...CONTAINER, 'securityContext', 'capabilities', 'add'],
    ['CHOWN'],
    'adds',
  ],
  [
    'restricted',
    'base',
    'Deployment ringwright-discord',
    [...CONTAINER, 'securityContext', 'privileged'],
    true,
    'of its own',
  ],
  ['restricted', 'base', 'Deployment ringwright-discord', [...CONTAINER, 'resources', 'limits'], undefined, 'memory'],
  ['restricted', 'base', 'Job ringwright-migrate', [...CONTAINER, 'resources', 'requests'], undefined, 'processor'],
  ['restricted', 'base', 'Job ringwright-migrate', [...CONTAINER, 'image'], 'ringwright:latest', 'changes'],
  ['farewell', 'base', 'Deployment ringwright-slack', [...POD, 'terminationGracePeriodSeconds'], 12, 'to end'],
  [
    'farewell',
    'base',
    'Deployment ringwright-discord',
    [...CONTAINER, 'lifecycle', 'preStop', 'sleep', 'seconds'],
    25,
    'to end',
  ],
  ['settings', 'base', 'Deployment ringwright-discord', [...CONTAINER, 'command', 1], 'adapters/none.ts', 'no program'],
  ['settings', 'base', 'ConfigMap ringwright-slack', ['data', 'SLACK_HSOT'], '0.0.0.0', 'reads SLACK_HSOT'],
  ['settings', 'base', 'ConfigMap ringwright-slack', ['data', 'SLACK_BOT_TOKEN'], 'xoxb-x', 'in the open'],
  ['settings', 'base', 'ConfigMap ringwright', ['metadata', 'name'], 'other', 'not there'],
  ['settings', 'base', 'ConfigMap ringwright', ['data', 'DATABASE_MIGRATE'], 'never', 'DATABASE_MIGRATE'],
  ['settings', 'base', 'ConfigMap ringwright-discord', ['data', 'DISCORD_PUBLIC_KEY'], undefined, 'missing'],
  [
    'settings',
    'base',
    'Deployment ringwright-discord',
    [...CONTAINER, 'volumeMounts', 0, 'mountPath'],
    '/run/other',
    'nothing puts there',
  ],
  [
    'settings',
    'base',
    'Deployment ringwright-discord',
    [...CONTAINER, 'env', 0],
    { name: 'DATABASE_URL', valueFrom: { secretKeyRef: { name: 'ringwright-database', key: 'database-url' } } },
    'into its environment',
  ],
  ['settings', 'base', 'ServiceAccount ringwright', ['kind'], 'Secret', 'written down'],
  ['shards', 'gateway', 'StatefulSet ringwright-discord-gateway', ['spec', 'replicas'], 3, '3 pods with 2'],
  ['shards', 'gateway', 'StatefulSet ringwright-discord-gateway', [...CONTAINER, 'env', 0], {}, 'its number'],
  [
    'shards',
    'gateway',
    'StatefulSet ringwright-discord-gateway',
    ['spec', 'podManagementPolicy'],
    'Parallel',
    'all at once',
  ],
  [
    'selectors',
    'base',
    'Service ringwright-slack',
    ['spec', 'selector', 'app.kubernetes.io/name'],
    'ringwright',
    'selects no pod',
  ],
  [
    'selectors',
    'base',
    'Deployment ringwright-slack',
    ['spec', 'selector', 'matchLabels'],
    { 'app.kubernetes.io/part-of': 'ringwright' },
    "another's",
  ],
  [
    'selectors',
    'base',
    'PodDisruptionBudget ringwright-slack',
    ['spec', 'selector', 'matchLabels', 'app.kubernetes.io/name'],
    'x',
    'selects no pod',
  ],
  [
    'selectors',
    'base',
    'NetworkPolicy ringwright-nothing',
    ['spec', 'podSelector', 'matchLabels'],
    { a: 'b' },
    'selects no pod',
  ],
  [
    'selectors',
    'base',
    'Deployment ringwright-slack',
    [...POD, 'topologySpreadConstraints', 0, 'labelSelector', 'matchLabels'],
    { 'app.kubernetes.io/name': 'ringwright-discord' },
    'not its own',
  ],
  ['ports', 'base', 'ConfigMap ringwright', ['data', 'WATCH_PORT'], '9000', 'listens at'],
  ['ports', 'base', 'Deployment ringwright-slack', [...CONTAINER, 'ports', 0, 'containerPort'], 3001, 'opens 3001'],
  [
    'ports',
    'base',
    'Deployment ringwright-slack',
    [...CONTAINER, 'livenessProbe', 'httpGet', 'port'],
    'http',
    'liveness',
  ],
  [
    'ports',
    'base',
    'Deployment ringwright-slack',
    [...CONTAINER, 'readinessProbe', 'httpGet', 'path'],
    '/healthz',
    'readiness',
  ],
  ['ports', 'base', 'Service ringwright-slack', ['spec', 'ports', 0, 'targetPort'], 'web', 'not open'],
  [
    'ports',
    'base',
    'NetworkPolicy ringwright-slack-way-in',
    ['spec', 'ingress', 0, 'ports', 0, 'port'],
    8080,
    'nobody listens',
  ],
  ['ports', 'base', 'NetworkPolicy ringwright-slack-way-in', ['spec', 'ingress', 0, 'from'], [], 'everybody'],
  [
    'references',
    'base',
    'HorizontalPodAutoscaler ringwright-slack',
    ['spec', 'scaleTargetRef', 'name'],
    'x',
    'not there',
  ],
  ['references', 'gateway', 'Service ringwright-discord-gateway', ['metadata', 'name'], 'x', 'not there'],
  ['references', 'base', 'Service ringwright-discord', ['metadata', 'name'], 'x', 'not there'],
  ['references', 'base', 'ServiceAccount ringwright', ['metadata', 'name'], 'x', 'not there'],
  ['shut', 'base', 'NetworkPolicy ringwright-nothing', ['spec', 'ingress'], [{}], 'whom it likes'],
  ['shut', 'base', 'NetworkPolicy ringwright-nothing', ['spec', 'policyTypes'], ['Ingress'], 'whom it likes'],
];

describe('the rules', () => {
  it.each(MUTATIONS)('%s: catches in %s what is wrong with %s at %j', (rule, way, name, path, to, fault) => {
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
