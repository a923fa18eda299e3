import { startOf } from './environment.ts';
import { at, listAt, recordAt, textAt } from './fields.ts';
import { nameOf, podsOf } from './kubernetes-objects.ts';
import { toldTo } from './kubernetes-pods.ts';

const PROBES = ['startupProbe', 'livenessProbe', 'readinessProbe'] as const;

/** What selects pods, and where in it the selector stands. */
const SELECTORS: Readonly<Record<string, readonly string[]>> = {
  Deployment: ['spec', 'selector', 'matchLabels'],
  StatefulSet: ['spec', 'selector', 'matchLabels'],
  Service: ['spec', 'selector'],
  PodDisruptionBudget: ['spec', 'selector', 'matchLabels'],
  NetworkPolicy: ['spec', 'podSelector', 'matchLabels'],
};

function selected(objects: readonly unknown[], selector: Readonly<Record<string, unknown>>) {
  const wanted = Object.entries(selector);
  return podsOf(objects).filter(({ pod }) => {
    const labels = recordAt(pod, 'metadata', 'labels');
    return wanted.length > 0 && wanted.every(([name, value]) => labels[name] === value);
  });
}

/** Selectors that find no pod, or not the pods of their own object. */
export function selectorFaults(objects: readonly unknown[]): readonly string[] {
  const faults = objects.flatMap((object) => {
    const path = SELECTORS[textAt(object, 'kind')];
    if (path === undefined) return [];
    const found = selected(objects, recordAt(object, ...path));
    const own = at(object, 'spec', 'template') !== undefined;
    if (found.length === 0) return [`${nameOf(object)}: selects no pod`];
    return own && (found.length > 1 || found[0]?.owner !== object) ? [`${nameOf(object)}: selects another's pods`] : [];
  });
  const spread = podsOf(objects).flatMap(({ owner, pod }) =>
    listAt(pod, 'spec', 'topologySpreadConstraints').flatMap((each) =>
      selected(objects, recordAt(each, 'labelSelector', 'matchLabels')).some((found) => found.owner === owner)
        ? []
        : [`${nameOf(owner)}: spreads pods that are not its own`],
    ),
  );
  return [...faults, ...spread];
}

/** Ports of a pod's containers by name and by number, as they would be found from outside. */
function portsOf(pod: unknown): ReadonlyMap<string, number> {
  return new Map(
    listAt(pod, 'spec', 'containers').flatMap((container) =>
      listAt(container, 'ports').map((port) => [textAt(port, 'name'), Number(at(port, 'containerPort'))] as const),
    ),
  );
}

/** Ports that differ between what a program is told and what probes, Services and policies believe. */
export function portFaults(objects: readonly unknown[]): readonly string[] {
  const faults: string[] = [];
  for (const { owner, pod } of podsOf(objects)) {
    if (textAt(owner, 'kind') === 'Job') continue;
    const container = at(pod, 'spec', 'containers', 0);
    const ports = portsOf(pod);
    const start = startOf(textAt(container, 'command', 1), toldTo(objects, container).told);
    const listens = start.kind === 'starts' ? start.ports : [];
    if ([...ports.values()].sort().join() !== [...listens].sort().join())
      faults.push(`${nameOf(owner)}: opens ${[...ports.values()].join(' and ')}, listens at ${listens.join(' and ')}`);
    for (const name of PROBES) {
      const probe = at(container, name, 'httpGet');
      const path = name === 'readinessProbe' ? '/readyz' : '/healthz';
      if (textAt(probe, 'port') !== 'watch' || textAt(probe, 'path') !== path || !ports.has('watch'))
        faults.push(`${nameOf(owner)}: ${name} does not ask for ${path} at the port for watching`);
    }
  }
  for (const object of objects) {
    if (textAt(object, 'kind') === 'Service') faults.push(...serviceFaults(objects, object));
    if (textAt(object, 'kind') === 'NetworkPolicy') faults.push(...policyFaults(objects, object));
  }
  return faults;
}

function serviceFaults(objects: readonly unknown[], service: unknown): readonly string[] {
  return selected(objects, recordAt(service, 'spec', 'selector')).flatMap(({ pod }) =>
    listAt(service, 'spec', 'ports').flatMap((port) =>
      portsOf(pod).has(textAt(port, 'targetPort')) ? [] : [`${nameOf(service)}: leads to a port that is not open`],
    ),
  );
}

/** A policy lets in where some pod that it selects listens. */
function policyFaults(objects: readonly unknown[], policy: unknown): readonly string[] {
  const open = selected(objects, recordAt(policy, 'spec', 'podSelector', 'matchLabels')).flatMap(({ pod }) => [
    ...portsOf(pod).values(),
  ]);
  return listAt(policy, 'spec', 'ingress').flatMap((rule) => {
    const ports = listAt(rule, 'ports').map((port) => Number(at(port, 'port')));
    if (listAt(rule, 'from').length === 0 || ports.length === 0) return [`${nameOf(policy)}: lets everybody in`];
    return ports.every((port) => open.includes(port)) ? [] : [`${nameOf(policy)}: lets in where nobody listens`];
  });
}

/** Names of other objects that lead nowhere. */
export function referenceFaults(objects: readonly unknown[]): readonly string[] {
  const names = new Set(objects.map(nameOf));
  const faults: string[] = [];
  const need = (from: unknown, kind: string, name: string) => {
    if (!names.has(`${kind} ${name}`)) faults.push(`${nameOf(from)}: names ${kind} ${name}, which is not there`);
  };
  for (const object of objects) {
    const kind = textAt(object, 'kind');
    if (kind === 'HorizontalPodAutoscaler') {
      const target = at(object, 'spec', 'scaleTargetRef');
      need(object, textAt(target, 'kind'), textAt(target, 'name'));
    }
    if (kind === 'StatefulSet') need(object, 'Service', textAt(object, 'spec', 'serviceName'));
    if (kind === 'Ingress') for (const backend of backendsOf(object)) need(object, 'Service', backend);
    const account = textAt(object, 'spec', 'template', 'spec', 'serviceAccountName');
    if (account !== '') need(object, 'ServiceAccount', account);
  }
  return faults;
}

function backendsOf(ingress: unknown): readonly string[] {
  return listAt(ingress, 'spec', 'rules').flatMap((rule) =>
    listAt(rule, 'http', 'paths').map((path) => textAt(path, 'backend', 'service', 'name')),
  );
}

/** Everything is shut but for what a policy names; without the first of them a cluster lets everybody talk to everybody. */
export function shutFaults(objects: readonly unknown[]): readonly string[] {
  const shut = objects.find(
    (each) =>
      textAt(each, 'kind') === 'NetworkPolicy' &&
      listAt(each, 'spec', 'policyTypes').join() === 'Ingress,Egress' &&
      at(each, 'spec', 'ingress') === undefined &&
      at(each, 'spec', 'egress') === undefined,
  );
  const reached = shut === undefined ? [] : selected(objects, recordAt(shut, 'spec', 'podSelector', 'matchLabels'));
  return podsOf(objects)
    .filter(({ owner }) => !reached.some((each) => each.owner === owner))
    .map(({ owner }) => `${nameOf(owner)}: talks to whom it likes`);
}
