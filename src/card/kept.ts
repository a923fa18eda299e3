import type { Refusal } from '../bike/reading.ts';
import type { LimitedField, Over } from '../records/limits.ts';
import type { AwayCode, StorageAway } from '../records/storage-away.ts';

const FIELD_WORDS: Readonly<Record<LimitedField, string>> = {
  bikeName: 'The name of the bike',
  setup: 'The setup line',
  bikesEach: 'The number of your bikes',
  topic: 'The topic',
  alias: 'An alias',
  aliases: 'The number of aliases',
  body: 'The text',
  why: 'The reason',
  jobTitle: 'The title of the job',
  jobRows: 'The number of torque rows',
  jobEvents: 'The number of entries on this job',
  fastener: 'The name of a fastener',
  material: 'The material',
  source: 'The source',
  wrench: 'The name of the wrench',
  command: 'The command',
  options: 'The options',
  rules: 'The version of the rules',
  answer: 'The answer',
  card: 'The card',
  pinners: 'The number of people and roles that may pin',
  role: 'The name of a role',
};

/** What came is longer than what is kept: the limit and the length, and nothing is cut. */
export function overRefusal({ field, limit, length }: Over): Refusal {
  return {
    field,
    message: `${FIELD_WORDS[field]} is over its limit: ${length}, with ${limit} allowed. Nothing was cut and nothing kept.`,
    allowed: `up to ${limit}`,
    example: 'help',
  };
}

const AWAY_WORDS: Readonly<Record<AwayCode, string>> = {
  full: 'There is no room left to keep anything.',
  'read-only': 'What is kept can be read just now, but not changed.',
  busy: 'What is kept is in use by somebody else just now.',
  gone: 'What is kept cannot be reached just now.',
  damaged: 'What is kept cannot be read: whoever runs this must look at it.',
  tables: 'What is kept is being brought up to date just now.',
};

/** Storage is away: nothing was half done, and questions about a bike still answer. */
export function awayRefusal({ code, certain }: Pick<StorageAway, 'code' | 'certain'>): Refusal {
  return {
    field: 'storage',
    message: certain
      ? `${AWAY_WORDS[code]} Nothing was lost and nothing half done.`
      : 'The connection broke at the very moment of saving. It is kept whole or not at all: look before you do it again.',
    allowed: 'every question about a bike told in the line; what is kept, a little later',
    example: 'convert 2x10 36/22 11-36 29er hardtail 104bcd',
  };
}

/** How much of what a person typed a refusal repeats. */
const SHOWN_CHARACTERS = 40;

function shown(text: string): string {
  return [...text].slice(0, SHOWN_CHARACTERS).join('');
}

/** There is no bike by that name, for this person in this place. */
export function noSuchBike(name: string): Refusal {
  return {
    field: 'bike',
    message: `There is no bike called "${shown(name)}" here.`,
    allowed: 'a name from: bike list',
    example: 'bike list',
  };
}

/** There is no receipt by that code in this place. */
export function noReceipt(code: string): Refusal {
  return {
    field: 'receipt',
    message: `There is no receipt "${shown(code)}" here.`,
    allowed:
      'eight letters and digits, as they stand under an answer given here; they are kept for the days the place has set',
    example: 'convert #7K3M9Q2A',
  };
}

/** What stands as the field of a refusal that is for want of a right, and not for a word that was typed. */
export const RIGHTS = { moderates: 'moderators', runsPlace: 'runs-place' } as const;

/** Somebody who may not do this, and whom to ask. */
export function moderatorsOnly(command: string, action: string): Refusal {
  return {
    field: RIGHTS.moderates,
    message: `${command} ${action} is for the moderators of this place.`,
    allowed: 'those whom the settings name; ask one of them, and say which answer you would like to see kept',
    example: 'answer find chain length',
  };
}

/** Somebody whose rights the platform does not say just now: they may have them or not. */
export function rightsUnknown(): Refusal {
  return {
    field: 'rights',
    message:
      'Just now nobody can be asked who runs this place or moderates it. Nothing was changed: try again in a moment.',
    allowed: 'the same again in a moment; every question about a bike at any time',
    example: 'convert 2x10 36/22 11-36 29er hardtail 104bcd',
  };
}
