import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Ajv, type ValidateFunction } from 'ajv';
import { createGenerator } from 'ts-json-schema-generator';
import { textAt } from './fields.ts';

/** The kinds there may be here. Another one is a fault until somebody adds it. */
const KINDS: readonly string[] = [
  'v1/ConfigMap',
  'v1/Service',
  'v1/ServiceAccount',
  'apps/v1/Deployment',
  'apps/v1/StatefulSet',
  'autoscaling/v2/HorizontalPodAutoscaler',
  'batch/v1/Job',
  'networking.k8s.io/v1/Ingress',
  'networking.k8s.io/v1/NetworkPolicy',
  'policy/v1/PodDisruptionBudget',
];

type Model = new (data: unknown) => { readonly validate: () => void };

/**
 * Says what is wrong with an object of a cluster, by the platform's own description of it in a package: its validators for
 * values and for what must be there, and its types, closed, for fields that do not exist.
 */
export async function kubernetesSchemas(): Promise<(object: unknown) => readonly string[]> {
  const types = fileURLToPath(new URL('../../node_modules/kubernetes-models', import.meta.url));
  const generator = createGenerator({
    path: join(types, `{${KINDS.join(',')}}.d.ts`),
    tsconfig: fileURLToPath(new URL('../../tsconfig.json', import.meta.url)),
    skipTypeCheck: true,
    additionalProperties: false,
    expose: 'all',
  });
  const ajv = new Ajv({ allErrors: true, strict: false });
  const compiled = new Map<string, { readonly closed: ValidateFunction; readonly Model: Model }>();
  for (const path of KINDS) {
    const kind = path.split('/').at(-1) ?? '';
    const module = (await import(/* @vite-ignore */ `kubernetes-models/${path}`)) as Readonly<Record<string, Model>>;
    const Model = module[kind];
    if (Model === undefined) throw new TypeError(`${path} has no model`);
    compiled.set(path, { closed: ajv.compile(generator.createSchema(`I${kind}`) as object), Model });
  }
  return (object) => {
    const path = `${textAt(object, 'apiVersion')}/${textAt(object, 'kind')}`;
    const known = compiled.get(path);
    if (known === undefined) return [`${path} is no kind that is known here`];
    const faults = known.closed(object)
      ? []
      : (known.closed.errors ?? []).map(
          ({ instancePath, message, params }) => `${instancePath} ${message} ${JSON.stringify(params)}`,
        );
    try {
      new known.Model(object).validate();
    } catch (error) {
      faults.push(error instanceof Error ? error.message : 'not valid');
    }
    return faults;
  };
}
