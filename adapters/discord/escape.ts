import { inert, shortened } from '../../src/inert.ts';

/** What the platform takes for markup wherever it stands: emphasis, code, spoilers, links, mentions, time stamps. */
const MARKUP = /[\\*_~`|[\]<>@]/g;

/** What it takes for a heading, small print, a quotation or a list where a line begins. */
const LINE_START = /^(\s*)(#{1,3}|-#|[-+>])(?=\s)/;
const NUMBERED_START = /^(\s*\d{1,9})([.)])(?=\s)/;

/** An address becomes a link, and an invitation a card, without any markup around it. */
const ADDRESS = /:\/\//g;
const INVITATION = /(\.[a-z]{2,})\//gi;

/** Somebody, or a role, as this platform writes them. */
const MENTION = /<@&?\d{1,20}>/g;

/**
 * One line of text in which nothing is markup, nothing becomes a link and nobody is mentioned. Names of people and roles
 * that the records hold (`known`) stay readable as such; the message itself says that they are not to be notified.
 */
export function escaped(text: string, known: ReadonlySet<string> = NOBODY): string {
  const safe = inert(text);
  if (known.size === 0 || !safe.includes('<@')) return marked(safe);
  let out = '';
  let from = 0;
  for (const { 0: mention, index } of safe.matchAll(MENTION)) {
    if (!known.has(mention)) continue;
    out += marked(safe.slice(from, index)) + mention;
    from = index + mention.length;
  }
  return out + marked(safe.slice(from));
}

const NOBODY: ReadonlySet<string> = new Set();

function marked(text: string): string {
  return text
    .replace(MARKUP, '\\$&')
    .replace(LINE_START, '$1\\$2')
    .replace(NUMBERED_START, '$1\\$2')
    .replace(ADDRESS, ':\\/\\/')
    .replace(INVITATION, '$1\\/');
}

/** Text for where the platform knows no markup: labels, choices, titles of modals, alternative texts. */
export function plain(text: string): string {
  return inert(text);
}

/** A label of at most `most` characters; a longer one says with an ellipsis that it goes on. */
export function label(text: string, most: number): string {
  return shortened(inert(text), most);
}

/** The people and roles named in what a command gave back, by the fields that name them. */
export function peopleIn(result: unknown): ReadonlySet<string> {
  const found = new Set<string>();
  collect(result, false, found);
  return found;
}

const PEOPLE_FIELDS = new Set(['by', 'person', 'author', 'approver', 'owner', 'pinPeople', 'pinRoles']);
const WHOLE_MENTION = /^<@&?\d{1,20}>$/;

function collect(value: unknown, names: boolean, found: Set<string>): void {
  if (typeof value === 'string') {
    if (names && WHOLE_MENTION.test(value)) found.add(value);
  } else if (Array.isArray(value)) {
    for (const each of value) collect(each, names, found);
  } else if (typeof value === 'object' && value !== null) {
    for (const [key, each] of Object.entries(value)) collect(each, PEOPLE_FIELDS.has(key), found);
  }
}
