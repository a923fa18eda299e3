import type { Words } from '../commands/command.ts';
import type { AnswerDraft, AnswerText, AnswerVersion } from '../records/answers.ts';
import type { Block } from './card.ts';
import { authorWords } from './job-people.ts';
import { bodyLines, doneWords, proposedWords, whyLines } from './standard-answer-people.ts';
import { questionWords, textChangeLines } from './standard-answer-text.ts';

/** What stands in a topic, as somebody who is to judge it must see it. */
function textBlock(title: string, { body, aliases, question }: AnswerText): Block {
  const lines = [...bodyLines(body)];
  if (aliases.length > 0) lines.push(`Also found as: ${aliases.join(', ')}.`);
  if (question !== null) lines.push(`Its card: ${questionWords(question)}`);
  return { kind: 'text', section: 'summary', title, lines };
}

function more(actions: readonly { readonly label: string; readonly setup: string }[]): Block {
  return { kind: 'actions', section: 'summary', title: 'Next', actions };
}

/** A new version stands. `before` is the text it replaced, where there was one. */
export function keptWords(version: AnswerVersion, before: AnswerText | null, note: readonly string[] = []): Words {
  const { topic, deed } = version;
  const down = deed === 'unpin';
  const changes: Block = {
    kind: 'text',
    section: 'summary',
    title: 'What changed',
    lines: before === null ? [] : textChangeLines(before, version.text),
  };
  return {
    answer: down
      ? `Taken down: ${topic}. Nothing of it is lost.`
      : `${topic}: version ${version.version} is shown now.`,
    lines: [`Version ${version.version}: ${doneWords(version)}.`, ...whyLines(version.why), ...note],
    blocks: [
      ...(down ? [] : before === null ? [textBlock(topic, version.text)] : [changes]),
      more([
        ...(down
          ? [{ label: 'Bring it back', setup: `restore ${topic} ${version.version - 1} why=` }]
          : [{ label: 'Show it', setup: `show ${topic}` }]),
        { label: 'How it came about', setup: `history ${topic}` },
      ]),
    ],
  };
}

/** A proposal waits for a second person. */
export function draftedWords(draft: AnswerDraft, before: AnswerText | null, note: readonly string[] = []): Words {
  return {
    answer: `${draft.topic}: draft ${draft.number} is kept and waits for a second moderator.`,
    lines: ['Until then nobody else sees it, and what was shown before stays.', ...note],
    blocks: [draftBlock(draft, before), decide(draft)],
  };
}

/** A draft with all that somebody needs to decide: the whole text, or what it would change. */
export function draftBlock(draft: AnswerDraft, before: AnswerText | null): Block {
  const title = `${draft.topic}, draft ${draft.number}: ${proposedWords(draft)}`;
  const block = textBlock(title, draft.text);
  if (block.kind !== 'text') return block;
  const changes = before === null ? [] : ['What it would change:', ...textChangeLines(before, draft.text)];
  return { ...block, lines: [...block.lines, ...changes, ...whyLines(draft.why)] };
}

/** The two ways to settle a draft. */
export function decide(draft: AnswerDraft): Block {
  return more([
    { label: `Approve ${draft.topic}`, setup: `approve ${draft.topic} ${draft.number}` },
    { label: `Decline ${draft.topic}`, setup: `decline ${draft.topic} ${draft.number} why=` },
  ]);
}

/** What somebody was about to do when the topic turned out to be another one by now. */
export type Attempt = 'pin' | 'edit' | 'restore';

const CONFLICTS: Readonly<
  Record<Attempt, { readonly what: string; readonly mine: string; readonly advice: (next: string) => string }>
> = {
  pin: { what: 'is pinned already', mine: 'Yours, not kept', advice: putBoth },
  edit: { what: 'has changed meanwhile', mine: 'Yours, not kept', advice: putBoth },
  restore: {
    what: 'has changed meanwhile',
    mine: 'The version you meant',
    advice: () => 'Nothing is lost: every version stays in the history. Say it again if it still should be.',
  },
};

function putBoth(next: string): string {
  return `Yours is kept nowhere: copy it now. To put one text in place of both: answer ${next}, the text and why="…"`;
}

/** Somebody was faster: both texts, so that none is lost. */
export function conflictWords(attempt: Attempt, topic: string, mine: AnswerText, theirs: AnswerVersion | null): Words {
  const { what, mine: title, advice } = CONFLICTS[attempt];
  const next = theirs === null ? `pin ${topic}` : `edit ${topic} version=${theirs.version}`;
  const blocks: Block[] = [textBlock(title, mine)];
  if (theirs !== null)
    blocks.push(textBlock(`By ${authorWords(theirs.author)}, version ${theirs.version}`, theirs.text));
  blocks.push(more([{ label: 'How it came about', setup: `history ${topic}` }]));
  return {
    answer: `Nothing changed: ${topic} ${what}. Both texts are below.`,
    lines: [...(theirs === null ? [] : [`Version ${theirs.version}: ${doneWords(theirs)}.`]), advice(next)],
    blocks,
  };
}

/** The topic has changed since the draft was proposed: both texts, and the draft waits for somebody who has seen them. */
export function draftMovedWords(draft: AnswerDraft, theirs: AnswerVersion): Words {
  const { topic, number } = draft;
  return {
    answer: `Nothing changed yet: ${topic} has changed since the draft was proposed. Both texts are below.`,
    lines: [
      `Version ${theirs.version}: ${doneWords(theirs)}.`,
      `The draft waits as number ${number} now, on what stands. Approve it if it still should be.`,
    ],
    blocks: [
      draftBlock(draft, theirs.text),
      textBlock(`By ${authorWords(theirs.author)}, version ${theirs.version}`, theirs.text),
      decide(draft),
    ],
  };
}

/** One proposal at a time: both texts, so that none is lost. */
export function draftWaitsWords(mine: AnswerText, draft: AnswerDraft): Words {
  return {
    answer: `Not kept: another draft of ${draft.topic} waits to be decided first. Both texts are below.`,
    lines: [`Draft ${draft.number}: ${proposedWords(draft)}.`, 'Yours is kept nowhere: copy it now.'],
    blocks: [textBlock('Yours, not kept', mine), draftBlock(draft, null), decide(draft)],
  };
}

/** A draft somebody decided against. */
export function declinedWords(draft: AnswerDraft, why: string, ownDraft: boolean): Words {
  return {
    answer: ownDraft
      ? `Taken back: your draft ${draft.number} of ${draft.topic}.`
      : `Declined: draft ${draft.number} of ${draft.topic}.`,
    lines: [
      `Proposed: ${proposedWords(draft)}.`,
      ...whyLines(why),
      'What was shown before stays. The text is below, to propose it anew.',
    ],
    blocks: [textBlock(`Draft ${draft.number}`, draft.text)],
  };
}
