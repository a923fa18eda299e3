import { spawnSync } from 'node:child_process';
import { join, posix } from 'node:path';
import { at, listAt, recordAt, textAt } from './fields.ts';
import { DEPLOY, fileText, isInRepository, yamlDocuments } from './repository.ts';

export const KUBERNETES = 'deploy/kubernetes';

/** Everything there is to run with `kubectl apply -k`. */
export const WAYS = ['base', 'gateway', 'overlays/club', 'overlays/many'] as const;

export type Kustomization = {
  /** Its folder in the repository. */
  readonly folder: string;
  readonly data: unknown;
};

/** A kustomization and all that it rests on, each once. */
export function kustomizationsOf(folder: string): readonly Kustomization[] {
  const [data, ...more] = yamlDocuments(fileText(`${folder}/kustomization.yaml`));
  if (data === undefined || more.length > 0) throw new TypeError(`${folder} holds not one kustomization`);
  const below = resourcesOf({ folder, data }).filter((path) => !path.endsWith('.yaml'));
  return [{ folder, data }, ...below.flatMap(kustomizationsOf)];
}

/** The paths that a kustomization names. */
export function resourcesOf({ folder, data }: Kustomization): readonly string[] {
  return listAt(data, 'resources').map((path) => posix.join(folder, String(path)));
}

export function missingPaths(kustomization: Kustomization): readonly string[] {
  return resourcesOf(kustomization).filter(
    (path) => !isInRepository(path.endsWith('.yaml') ? path : `${path}/kustomization.yaml`),
  );
}

/** The objects of a way as they stand in its files, without patches: what can be looked at without the builder. */
export function writtenObjects(folder: string): readonly unknown[] {
  return kustomizationsOf(folder).flatMap((each) => [
    ...resourcesOf(each)
      .filter((path) => path.endsWith('.yaml'))
      .flatMap((path) => yamlDocuments(fileText(path))),
    ...listAt(each.data, 'configMapGenerator')
      .filter((made) => textAt(made, 'behavior') !== 'merge')
      .map(configMapOf),
  ]);
}

function configMapOf(made: unknown): unknown {
  const pairs = listAt(made, 'literals').map((literal) => {
    const [, name = '', value = ''] = /^([^=]+)=(.*)$/s.exec(String(literal)) ?? [];
    return [name, value] as const;
  });
  return {
    apiVersion: 'v1',
    kind: 'ConfigMap',
    metadata: { name: textAt(made, 'name'), labels: recordAt(made, 'options', 'labels') },
    data: Object.fromEntries(pairs),
  };
}

/** Whether the builder is on this machine. */
export const HAS_KUBECTL = spawnSync('kubectl', ['version', '--client']).status === 0;

const built = new Map<string, readonly unknown[]>();

/** The objects of a way as they would be sent to a cluster. */
export function builtObjects(way: string): readonly unknown[] {
  const known = built.get(way) ?? build(way);
  built.set(way, known);
  return known;
}

function build(way: string): readonly unknown[] {
  const { status, stdout, stderr } = spawnSync('kubectl', ['kustomize', join(DEPLOY, 'kubernetes', way)], {
    encoding: 'utf8',
  });
  if (status !== 0) throw new Error(stderr);
  return yamlDocuments(stdout);
}

export function nameOf(object: unknown): string {
  return `${textAt(object, 'kind')} ${textAt(object, 'metadata', 'name')}`;
}

/** The objects that run pods, each with its pods' description. */
export function podsOf(objects: readonly unknown[]): readonly { readonly owner: unknown; readonly pod: unknown }[] {
  return objects.flatMap((owner) => {
    const pod = at(owner, 'spec', 'template');
    return pod === undefined ? [] : [{ owner, pod }];
  });
}
