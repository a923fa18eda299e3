import { factsOf, usualOf } from './facts.ts';
import { fileNameOf } from './secret-files.ts';
import { GROUPS } from './settings.ts';

type GroupName = keyof typeof GROUPS;

/** Where Docker puts secrets, and where this example of a file is looked for (Compose specification, "secrets"). */
const SECRETS_FOLDER = '/run/secrets';

/** Narrower than a line of code, because it is edited in whatever window there is; common practice. */
const COLUMNS = 100;

const HEADING = [
  'Settings of Ringwright. Copy this file to `.env`, fill in what is wanted and leave the rest: what is empty or behind # is not set.',
  'Written by `npm run settings:example` from the one list of settings; change it there.',
];

/** Every setting with what it is for, ready to be filled in. Secrets are empty; what is optional stands behind #. */
export function exampleFile(): string {
  const groups = Object.values(GROUPS).map(({ title, readBy, settings }) => {
    const lines = Object.entries(settings).map(([name, shape]) => {
      const { purpose, from, example = '', secret } = factsOf(shape);
      const usual = usualOf(shape);
      return [
        ...comment(
          `${capital(purpose)}.`,
          ...(from === undefined ? [] : [`From: ${from}.`]),
          ...(usual === null ? [] : [`Without it: ${usual}.`]),
        ),
        ...(secret
          ? [`${name}=`, `# ${fileNameOf(name)}=${SECRETS_FOLDER}/${name.toLowerCase()}`]
          : [`# ${name}=${example}`]),
      ].join('\n');
    });
    return [`# ==== ${title} (${readBy}) ====`, ...lines].join('\n\n');
  });
  return `${[comment(...HEADING).join('\n'), ...groups].join('\n\n')}\n`;
}

/** The settings of some groups as a table of a document. */
function settingsTable(names: readonly GroupName[]): string {
  const rows = names.flatMap((group) =>
    Object.entries(GROUPS[group].settings).map(([name, shape]) => {
      const { purpose, from = '', secret } = factsOf(shape);
      const variable = secret ? `\`${name}\` or \`${fileNameOf(name)}\`` : `\`${name}\``;
      const cells = [variable, purpose, from, usualOf(shape) ?? ''].map((cell) => (cell === '' ? '|' : `| ${cell}`));
      return `${cells.join(' ')} |`;
    }),
  );
  return ['| setting | what it is for | where to get it | without it |', '|---|---|---|---|', ...rows].join('\n');
}

const TABLE = /(<!-- settings: ([a-z ]+) -->\n).*?(<!-- end of settings -->)/gs;

/** A document with each table of settings in it written anew, between the comments that say which groups it shows. */
export function withTables(document: string): string {
  return document.replace(TABLE, (_, start: string, names: string, end: string) => {
    const groups = names.split(' ').filter((name): name is GroupName => name in GROUPS);
    return `${start}\n${settingsTable(groups)}\n\n${end}`;
  });
}

/** Lines of a comment, each sentence on a line of its own, and no marks that only a document shows. */
function comment(...sentences: readonly string[]): readonly string[] {
  return sentences.flatMap((sentence) => wrapped(sentence.replaceAll('`', ''))).map((line) => `# ${line}`);
}

function wrapped(text: string): readonly string[] {
  const lines = [''];
  for (const word of text.split(' ')) {
    const last = lines.at(-1) ?? '';
    if (last !== '' && last.length + word.length + 1 > COLUMNS) lines.push(word);
    else lines[lines.length - 1] = last === '' ? word : `${last} ${word}`;
  }
  return lines;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
