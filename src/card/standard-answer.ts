import type { Bike } from '../bike/bike.ts';
import type { Refusal } from '../bike/reading.ts';
import type { Answer } from '../commands/answer.ts';
import type { Words } from '../commands/command.ts';
import type { AnswerVersion, PinnedQuestion } from '../records/answers.ts';
import type { ResultChange } from '../records/result-difference.ts';
import type { Block, Card } from './card.ts';
import { changeLines, figures } from './standard-answer-change.ts';
import { doneWords } from './standard-answer-people.ts';
import { questionWords } from './standard-answer-text.ts';
import { stopsFirst } from './stops-first.ts';
import { day } from './times.ts';

/** The first line of a card and a notification text end here. */
const ANSWER_CHARACTERS = 120;

/** More changed figures than this are a table, not something to read; what matters most stands first. */
const CHANGES_SHOWN = 12;

/** What a pinned question gives today. */
export type Today =
  | {
      readonly kind: 'answered';
      readonly card: Card;
      readonly rules: string;
      /** The answer of today, as canonical JSON. */
      readonly result: string;
      /** Where it differs from the day it was pinned. */
      readonly changes: readonly ResultChange[];
      readonly read: Bike;
      readonly answer: Answer;
    }
  /** It was answered when it was pinned and is not any more. */
  | { readonly kind: 'unanswered'; readonly refusal: Refusal; readonly rules: string };

/**
 * A standard answer as everybody sees it: the moderator's words, and below them its question solved today, or with
 * something else told on top of it.
 */
export function standardAnswerWords(version: AnswerVersion, today: Today | null, told = ''): Words {
  const { topic, text } = version;
  const answer = told !== '' && today?.kind === 'answered' ? today.card.answer : headline(version, today);
  const blocks: Block[] = [];
  if (text.body.trim() !== '' && text.body !== answer) {
    blocks.push({ kind: 'text', section: 'summary', title: topic, lines: text.body.split('\n') });
  }
  const lines = [`Version ${version.version}, ${doneWords(version)}.`];
  if (text.aliases.length > 0) lines.push(`Also found as: ${text.aliases.join(', ')}.`);
  if (today !== null && text.question !== null) {
    lines.push(standing(version, text.question, today));
    if (told !== '') lines.push(`The card has this as well: ${told}.`);
    blocks.push(...todayBlocks(version, text.question, today, { answer, told }));
  }
  blocks.push({
    kind: 'actions',
    section: 'kept',
    title: 'More',
    actions: [{ label: 'How it came about', setup: `history ${topic}` }],
  });
  return { answer, lines, blocks: stopsFirst(blocks) };
}

/**
 * The moderator's words where they fit a line, else their first sentence, else what the card says. Where the card is
 * not what it was, that comes first: the words may be about the old one.
 */
function headline({ topic, text }: AnswerVersion, today: Today | null): string {
  if (today?.kind === 'unanswered') return `${topic}: its question has no answer by the rules of today.`;
  if (today !== null && today.changes.length > 0) {
    const whole = `${topic} has changed since it was pinned. Today: ${today.card.answer}`;
    return whole.length <= ANSWER_CHARACTERS
      ? whole
      : `${topic} has changed since it was pinned; then and now are below.`;
  }
  if (text.body.trim() !== '') return firstSentence(text.body) ?? `${topic}: the standard answer here.`;
  return today === null ? `${topic}: a standard answer here.` : today.card.answer;
}

/** The first sentence of a text, or null where it is too long for a headline. */
function firstSentence(text: string): string | null {
  let end = 0;
  for (; end < text.length && end <= ANSWER_CHARACTERS; end += 1) {
    const sign = text[end] ?? '';
    if (sign === '\n') break;
    if ((sign === '.' || sign === '!' || sign === '?') && text[end + 1] === ' ') {
      end += 1;
      break;
    }
  }
  const sentence = text.slice(0, end);
  return end > ANSWER_CHARACTERS || sentence.trim() === '' ? null : sentence;
}

/** Whether the card is still what was pinned, in one line. */
function standing({ atMs }: AnswerVersion, pinned: PinnedQuestion, today: Today): string {
  const rules =
    pinned.rules === today.rules
      ? `rules ${today.rules}, as when it was pinned`
      : `rules ${pinned.rules} then, ${today.rules} now`;
  if (today.kind === 'unanswered') return `Solved again now: no answer any more (${rules}).`;
  if (today.changes.length > 0) {
    return `Solved again now: ${figures(today.changes.length)} changed since ${day(atMs)} (${rules}).`;
  }
  return `Solved again now: it still holds (${rules}).`;
}

function todayBlocks(
  version: AnswerVersion,
  pinned: PinnedQuestion,
  today: Today,
  { answer, told }: { readonly answer: string; readonly told: string },
): readonly Block[] {
  const blocks: Block[] = [];
  if (today.kind === 'unanswered') {
    const then = JSON.parse(pinned.card) as Card;
    return [
      {
        kind: 'caution',
        section: 'summary',
        level: 'care',
        text: `Its question has no answer by the rules of today: ${today.refusal.message} Do not build on the old one.`,
      },
      {
        kind: 'text',
        section: 'summary',
        title: `What it said by rules ${pinned.rules}`,
        lines: [then.answer, ...then.lines],
      },
      { kind: 'text', section: 'kept', title: 'The question', lines: [questionWords(pinned)] },
    ];
  }
  if (today.changes.length > 0) {
    blocks.push(
      {
        kind: 'caution',
        section: 'summary',
        level: 'care',
        text: `This answer is not what it was when it was pinned, by rules ${pinned.rules}: the card below is of today, by rules ${today.rules}. The words above it are older.`,
      },
      {
        kind: 'text',
        section: 'summary',
        title: 'Then and now',
        lines: changeLines(today.changes, pinned.result, today.result, CHANGES_SHOWN),
      },
    );
  }
  const { card } = today;
  const first = card.answer === answer ? [] : [card.answer];
  blocks.push({
    kind: 'text',
    section: 'summary',
    title: `Solved again now: ${pinned.command}`,
    lines: [...first, ...card.lines, card.readBack],
  });
  blocks.push(...card.blocks.map((block) => followedUp(block, version.topic, told)));
  return blocks;
}

/** What can be told on top of a card is told on top of the pinned question. */
function followedUp(block: Block, topic: string, told: string): Block {
  if (block.kind !== 'actions') return block;
  const before = told === '' ? '' : `${told} `;
  return {
    ...block,
    actions: block.actions.map(({ label, setup }) => ({ label, setup: `show ${topic} with="${before}${setup}"` })),
  };
}
