import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { stagesOf } from '../deploy/dockerfile-rules.ts';
import { licenceOf } from './licences.ts';
import { isForImage, type Lock, type Manifest, type Package, packagesOf, ROOT } from './packages.ts';

/** What each package that we ask for is for. */
const PURPOSES: Readonly<Record<string, string>> = {
  '@discordjs/rest': 'Discord: the REST interface',
  '@discordjs/ws': 'Discord: the gateway and its shards',
  '@expo-google-fonts/barlow-semi-condensed': 'the font of pictures and printed pages',
  '@hono/node-server': 'the HTTP server of the practice room',
  '@resvg/resvg-js': 'pictures: SVG to PNG',
  '@slack/bolt': 'Slack: its two transports and its signatures',
  'd3-scale': 'the scales of pictures',
  'd3-shape': 'the lines of pictures',
  'discord-api-types': 'Discord: its routes and codes',
  hono: 'the routes of the practice room',
  kysely: 'queries for both storage engines',
  pdfkit: 'the printed page of a job',
  pg: 'PostgreSQL',
  pino: 'structured logs',
  'prom-client': 'counts and times for whoever watches',
  'string-width': 'the columns a text takes at a terminal',
  zod: 'reading what comes from outside: settings, payloads, rows',
};

/** What a Dockerfile takes from the checkout, in order. */
export function copiedPaths(dockerfile: string): readonly string[] {
  const copies = stagesOf(dockerfile)
    .stages.flatMap(({ steps }) => steps)
    .filter(({ word, flags }) => word === 'COPY' && !flags.some((flag) => flag.startsWith('--from=')));
  return [...new Set(copies.flatMap(({ rest }) => rest.split(/\s+/).slice(0, -1)))];
}

/** The packages that are in the image, by name. */
export function imagePackages(lock: Lock): readonly Package[] {
  return packagesOf(lock)
    .filter((each) => each.production && isForImage(each))
    .toSorted((one, other) => (one.path < other.path ? -1 : 1));
}

/** The packages that we ask for ourselves and that nobody has said a purpose for, and purposes of none. */
export function purposeFaults({ dependencies }: Manifest): readonly string[] {
  return [
    ...Object.keys(dependencies)
      .filter((name) => PURPOSES[name] === undefined)
      .map((name) => `nobody says what ${name} is for`),
    ...Object.keys(PURPOSES)
      .filter((name) => dependencies[name] === undefined)
      .map((name) => `${name} has a purpose and is not there`),
  ];
}

/** The page that says what is in the image, as it must stand in `deploy/image-contents.md`. */
export function contentsPage(manifest: Manifest, lock: Lock, dockerfile: string): string {
  const packages = imagePackages(lock);
  const asked = packages.filter(({ path, name }) => path === `node_modules/${name}` && name in manifest.dependencies);
  const others = packages.filter((each) => !asked.includes(each));
  const licences = Map.groupBy(packages, (each) => licenceOf(each) ?? '?');
  return [
    '# What is in the image',
    '',
    'Written by `npm run supply -- contents` from the lock file, the installed packages and the Dockerfile; a test fails',
    'where it is not current. Beside this there is only what the official Node image brings.',
    '',
    '## Our own files',
    '',
    '| path | files |',
    '|---|---|',
    ...copiedPaths(dockerfile).flatMap(ownRows),
    '',
    '## Packages we ask for',
    '',
    '| package | version | licence | what it is for |',
    '|---|---|---|---|',
    ...asked.map((each) => `| ${each.name} | ${each.version} | ${licenceOf(each)} | ${PURPOSES[each.name]} |`),
    '',
    '## Packages those ask for',
    '',
    'One that names a processor is in the image for that processor only.',
    '',
    '| package | version | licence |',
    '|---|---|---|',
    ...others.map((each) => `| ${nameOf(each)} | ${each.version} | ${licenceOf(each)} |`),
    '',
    '## Licences',
    '',
    '| licence | packages |',
    '|---|---|',
    ...[...licences]
      .toSorted(([one], [other]) => (one < other ? -1 : 1))
      .map(([licence, under]) => `| ${licence} | ${under.length} |`),
    '',
    '## The same for machines',
    '',
    'In a copy of the checkout, so that the manifest can be changed:',
    '',
    '```sh',
    'npm ci --omit=dev --ignore-scripts --no-audit --no-fund',
    'npm pkg delete devDependencies',
    'npm sbom --sbom-format cyclonedx > parts.json',
    '```',
    '',
    'With the tools installed and left out by a flag, npm 11 leaves out the packages that programs and tools share, such as',
    'the one that reads settings; a test holds the list made as above to what is installed.',
    '',
  ].join('\n');
}

function nameOf({ name, path, cpu }: Package): string {
  const within = path.slice('node_modules/'.length, path.length - name.length - '/node_modules/'.length);
  const where = path === `node_modules/${name}` ? '' : ` (within ${within.split('/node_modules/').at(-1)})`;
  return `${name}${where}${cpu.length === 0 ? '' : ` (${cpu.join(', ')})`}`;
}

/** A file, or a folder with each of its own folders and how many files are in it. */
function ownRows(path: string): readonly string[] {
  if (!statSync(join(ROOT, path)).isDirectory()) return [`| ${path} | 1 |`];
  const entries = readdirSync(join(ROOT, path), { withFileTypes: true });
  const folders = entries.filter((each) => each.isDirectory()).map(({ name }) => name);
  const files = entries.length - folders.length;
  return [
    ...(files === 0 ? [] : [`| ${path} | ${files} |`]),
    ...folders.toSorted().map((name) => `| ${path}/${name} | ${filesIn(join(ROOT, path, name))} |`),
  ];
}

function filesIn(folder: string): number {
  return readdirSync(folder, { withFileTypes: true, recursive: true }).filter((each) => each.isFile()).length;
}
