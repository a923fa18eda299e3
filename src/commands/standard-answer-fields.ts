import type { AnswerDraft, AnswerText, AnswerVersion } from '../records/answers.ts';
import type { Field } from './kept.ts';

/** A topic that something follows: one word, or several joined by hyphens or in quotes. */
export const TOPIC: Field = {
  name: 'topic',
  label: 'Topic',
  form: 'word',
  required: true,
  example: 'chain-length',
  suggest: 'topics',
};

/** A topic at the end of the line, in as many words as it has. */
export const TOPIC_LAST: Field = { ...TOPIC, form: 'text' };

export const TEXT: Field = {
  name: 'text',
  label: 'Text',
  form: 'text',
  required: false,
  example: 'Measure first, then cut.',
};

/** Where the card comes from. */
export const FROM: Field = {
  name: 'from',
  label: 'Code of an answer',
  form: 'word',
  required: false,
  example: 'from=#7K3M9Q2A',
  suggest: 'receipts',
};

export const ALIASES: Field = {
  name: 'aliases',
  label: 'Other names, with commas between',
  form: 'word',
  required: false,
  example: 'aliases=how-many-pitches,chain-cut',
};

export const WHY: Field = { name: 'why', label: 'Reason', form: 'text', required: true, example: 'why="clearer"' };

export const WHY_IF_WANTED: Field = { ...WHY, required: false };

export const VERSION_SEEN: Field = {
  name: 'version',
  label: 'Version you have read',
  form: 'whole',
  required: false,
  example: 'version=2',
};

export const AFTER: Field = {
  name: 'after',
  label: 'Go on after this topic',
  form: 'word',
  required: false,
  example: 'after=chain-length',
};

export const DRAFT: Field = {
  name: 'draft',
  label: 'Number of the draft',
  form: 'whole',
  required: true,
  example: '1',
};

/** "a, b" as its names; "none" is no name at all. */
export function aliasesIn(told: string): readonly string[] {
  if (told.trim().toLowerCase() === 'none') return [];
  return told
    .split(',')
    .map((each) => each.trim())
    .filter((each) => each !== '');
}

/** A text as data for a machine. */
export function textData({ aliases, body, question }: AnswerText) {
  const asked =
    question === null
      ? null
      : { command: question.command, setup: question.setup, options: question.options, rules: question.rules };
  return { aliases, body, question: asked };
}

/** A version as data for a machine; the snapshot behind it is long and stays in the records. */
export function versionData({ topic, version, deed, restored, text, why, author, approver, atMs }: AnswerVersion) {
  return { topic, version, deed, restored, ...textData(text), why, author, approver, atMs };
}

/** A draft as data for a machine. */
export function draftData({ topic, number, deed, restored, basedOn, text, why, author, atMs }: AnswerDraft) {
  return { topic, draft: number, deed, restored, basedOn, ...textData(text), why, author, atMs };
}
