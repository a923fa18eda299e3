import type { AnswerDraft, AnswerVersion, Deed } from '../records/answers.ts';
import { authorWords } from './job-people.ts';
import { day } from './times.ts';

const DEED_WORDS: Readonly<Record<Deed, string>> = {
  pin: 'pinned',
  edit: 'edited',
  restore: 'brought back',
  unpin: 'taken down',
};

/** "edited by anna on 2026-11-25" and who approved it. */
export function doneWords(version: AnswerVersion): string {
  const { deed, restored, author, approver, atMs } = version;
  const what = restored === null ? DEED_WORDS[deed] : `${DEED_WORDS[deed]} from version ${restored}`;
  const approved = approver === null ? '' : `, approved by ${authorWords(approver)}`;
  return `${what} by ${authorWords(author)} on ${day(atMs)}${approved}`;
}

/** "edited by anna on 2026-11-25" of what nobody has approved yet. */
export function proposedWords({ deed, restored, author, atMs }: AnswerDraft): string {
  const what = restored === null ? DEED_WORDS[deed] : `${DEED_WORDS[deed]} from version ${restored}`;
  return `${what} by ${authorWords(author)} on ${day(atMs)}`;
}

/** The reason somebody gave, or nothing. */
export function whyLines(why: string): readonly string[] {
  return why.trim() === '' ? [] : [`Why: ${why}`];
}

/** What a moderator wrote, line by line. */
export function bodyLines(body: string): readonly string[] {
  return body.trim() === '' ? ['(no words; the card alone)'] : body.split('\n');
}
