import { nameFaults, secretFiles, startOf, type Told } from './environment.ts';
import { FAREWELL_S } from './farewell.ts';
import { at, listAt, recordAt, textAt } from './fields.ts';
import { nameOf, podsOf } from './kubernetes-objects.ts';
import { isInRepository } from './repository.ts';

/** What keeps a pod from the platform's "restricted" rules ("Pod Security Standards"), and from a read-only root. */
export function restrictionFaults(objects: readonly unknown[]): readonly string[] {
  return podsOf(objects).flatMap(({ owner, pod }) => {
    const faults: string[] = [];
    const must = (holds: boolean, words: string) => {
      if (!holds) faults.push(`${nameOf(owner)}: ${words}`);
    };
    const spec = at(pod, 'spec');
    const context = at(spec, 'securityContext');
    must(at(context, 'runAsNonRoot') === true, 'may run as root');
    must(Number(at(context, 'runAsUser')) > 0, 'runs as a user without a number');
    must(textAt(context, 'seccompProfile', 'type') === 'RuntimeDefault', 'has no seccomp profile');
    must(at(spec, 'automountServiceAccountToken') === false, 'has a token for the cluster');
    must(textAt(spec, 'serviceAccountName') !== '', 'has an account that others share');
    for (const name of ['hostNetwork', 'hostPID', 'hostIPC']) must(at(spec, name) === undefined, `has ${name}`);
    for (const volume of listAt(spec, 'volumes')) must(at(volume, 'hostPath') === undefined, "has the machine's files");
    const containers = [...listAt(spec, 'containers'), ...listAt(spec, 'initContainers')];
    for (const container of containers) {
      const own = at(container, 'securityContext');
      must(at(own, 'allowPrivilegeEscalation') === false, 'may gain rights');
      must(at(own, 'readOnlyRootFilesystem') === true, 'may write to its image');
      must(listAt(own, 'capabilities', 'drop').includes('ALL'), 'keeps capabilities');
      must(at(own, 'capabilities', 'add') === undefined, 'adds capabilities');
      must(at(own, 'privileged') === undefined && at(own, 'runAsUser') === undefined, 'has rights of its own');
      must(textAt(container, 'resources', 'limits', 'memory') !== '', 'has no limit of memory');
      must(textAt(container, 'resources', 'requests', 'cpu') !== '', 'asks for no processor');
      must(!/:latest$/.test(textAt(container, 'image')), 'has an image that changes');
    }
    return faults;
  });
}

/** Pods that are let go before they can have finished. */
export function farewellFaults(objects: readonly unknown[]): readonly string[] {
  return podsOf(objects).flatMap(({ owner, pod }) => {
    if (textAt(owner, 'kind') === 'Job') return [];
    const given = Number(at(pod, 'spec', 'terminationGracePeriodSeconds') ?? 30);
    const before = Number(at(pod, 'spec', 'containers', 0, 'lifecycle', 'preStop', 'sleep', 'seconds') ?? 0);
    return given > before + FAREWELL_S
      ? []
      : [`${nameOf(owner)}: has ${given} s to end, and needs ${before + FAREWELL_S}`];
  });
}

/** What a container is told, its ConfigMaps included; a map that is not there is named among the faults. */
export function toldTo(objects: readonly unknown[], container: unknown): { told: Told; faults: readonly string[] } {
  const told: Record<string, string | null> = {};
  const faults: string[] = [];
  for (const from of listAt(container, 'envFrom')) {
    const name = textAt(from, 'configMapRef', 'name');
    const map = objects.find((each) => nameOf(each) === `ConfigMap ${name}`);
    if (map === undefined) faults.push(`is told by a ConfigMap ${name} that is not there`);
    for (const [key, value] of Object.entries(recordAt(map, 'data'))) told[key] = String(value);
  }
  for (const each of listAt(container, 'env')) {
    const value = at(each, 'value');
    if (at(each, 'valueFrom', 'secretKeyRef') !== undefined) faults.push('takes a secret into its environment');
    told[textAt(each, 'name')] = typeof value === 'string' ? value : null;
  }
  return { told, faults };
}

/** Programs that are not there, names that nobody reads, secrets that do not come as files, settings that are refused. */
export function settingFaults(objects: readonly unknown[]): readonly string[] {
  const open = objects
    .filter((each) => textAt(each, 'kind') === 'Secret')
    .map((each) => `${nameOf(each)}: is written down`);
  const inPods = podsOf(objects).flatMap(({ owner, pod }) =>
    listAt(pod, 'spec', 'containers').flatMap((container) => {
      const { told, faults } = toldTo(objects, container);
      const program = textAt(container, 'command', 1);
      const all = [...faults, ...nameFaults(told)];
      if (textAt(container, 'command', 0) !== 'node' || !isInRepository(program))
        all.push(`starts no program: ${program}`);
      const mounted = mountedFiles(pod, container);
      for (const [name, path] of secretFiles(told))
        if (!mounted.includes(path)) all.push(`${name} names ${path}, which nothing puts there`);
      if (!program.includes('storage')) {
        const start = startOf(program, told);
        if (start.kind === 'refuses') all.push(start.why);
      }
      return all.map((words) => `${nameOf(owner)}: ${words}`);
    }),
  );
  return [...open, ...inPods];
}

/** Where the files of projected secrets are found in a container. */
function mountedFiles(pod: unknown, container: unknown): readonly string[] {
  return listAt(container, 'volumeMounts').flatMap((mount) => {
    const volume = listAt(pod, 'spec', 'volumes').find((each) => textAt(each, 'name') === textAt(mount, 'name'));
    return listAt(volume, 'projected', 'sources').flatMap((source) =>
      listAt(source, 'secret', 'items').map((item) => `${textAt(mount, 'mountPath')}/${textAt(item, 'path')}`),
    );
  });
}

/** Shards that nobody runs, or two would: the pods of a StatefulSet share them out by their number. */
export function shardFaults(objects: readonly unknown[]): readonly string[] {
  return podsOf(objects).flatMap(({ owner, pod }) => {
    if (textAt(owner, 'kind') !== 'StatefulSet') return [];
    const container = at(pod, 'spec', 'containers', 0);
    const { told } = toldTo(objects, container);
    const ordinal = listAt(container, 'env').find((each) => textAt(each, 'name') === 'DISCORD_ORDINAL');
    const faults: string[] = [];
    if (textAt(ordinal, 'valueFrom', 'fieldRef', 'fieldPath') !== "metadata.labels['apps.kubernetes.io/pod-index']")
      faults.push('does not tell a pod its number');
    const replicas = Number(at(owner, 'spec', 'replicas'));
    const each = Number(told.DISCORD_SHARDS_EACH);
    const count = Number(told.DISCORD_SHARD_COUNT);
    if (replicas * each !== count) faults.push(`${replicas} pods with ${each} shards are not ${count}`);
    if (textAt(owner, 'spec', 'podManagementPolicy') !== 'OrderedReady') faults.push('begins sessions all at once');
    return faults.map((words) => `${nameOf(owner)}: ${words}`);
  });
}
