import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import satisfies from 'spdx-satisfies';
import { installedLicence, type Package, ROOT } from './packages.ts';

/** Licences that may come with us, each with what it asks for and why that is kept. */
export const ALLOWED: Readonly<Record<string, string>> = {
  MIT: 'the notice stays with the copy: packages are handed on whole, with their own files',
  ISC: 'as MIT, in fewer words',
  '0BSD': 'asks for nothing',
  'BSD-2-Clause': 'the notice stays with the copy',
  'BSD-3-Clause': 'the notice stays with the copy, and no name is used to advertise',
  'Apache-2.0': 'notice and licence stay with the copy; packages are handed on unchanged',
  'BlueOak-1.0.0': 'the text of the licence, or its address, stays with the copy',
  'MPL-2.0': 'concerns the files under it, which are used as published and not changed',
  'OFL-1.1': 'the font goes with its licence, is not sold by itself, and keeps its name',
  'CC0-1.0': 'asks for nothing',
};

/** Licences for tools that are never handed on, beside those above. */
export const ALLOWED_FOR_TOOLS: Readonly<Record<string, string>> = {
  'CC-BY-3.0': 'lists that a check of licences reads: who made them stays named in the package',
};

/** Packages that do not name their licence where it is looked for; what was found instead, by the words of their file. */
export const READ_FROM_FILE: Readonly<Record<string, { readonly licence: string; readonly words: RegExp }>> = {
  'png-js': { licence: 'MIT', words: /^MIT License\n[\s\S]*Permission is hereby granted, free of charge/ },
};

/** The licence of a package: as it says itself where it is installed, as the lock says where it is for other machines. */
export function licenceOf({ name, path, license }: Package): string | null {
  const said = installedLicence(path);
  const read = READ_FROM_FILE[name];
  if (said !== null && said !== undefined) return said;
  if (said === undefined && read !== undefined) {
    return read.words.test(readFileSync(join(ROOT, path, 'LICENSE'), 'utf8')) ? read.licence : null;
  }
  return said === null ? (license ?? null) : null;
}

/** Every package whose licence is not known or not allowed, or is another than the lock says. */
export function licenceFaults(packages: readonly Package[], licence: (of: Package) => string | null = licenceOf) {
  return packages.flatMap((each) => {
    const told = licence(each);
    if (told === null) return [`${each.path} names no licence`];
    if (!isAllowed(told, each.production)) return [`${each.path} is under ${told}`];
    return each.license !== undefined && each.license !== told
      ? [`${each.path} is under ${told}, the lock says ${each.license}`]
      : [];
  });
}

function isAllowed(expression: string, production: boolean): boolean {
  const allowed = production ? Object.keys(ALLOWED) : [...Object.keys(ALLOWED), ...Object.keys(ALLOWED_FOR_TOOLS)];
  try {
    return satisfies(expression, allowed);
  } catch {
    // What does not follow the grammar says nothing.
    return false;
  }
}
