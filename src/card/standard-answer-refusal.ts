import { shown } from '../bike/normalise.ts';
import type { Refusal } from '../bike/reading.ts';
import type { AnswerDraft, AnswerVersion, TextRefused } from '../records/answers.ts';
import { LIMITS } from '../records/limits.ts';
import { figures } from './standard-answer-change.ts';
import { doneWords } from './standard-answer-people.ts';
import { day } from './times.ts';

/** Nobody has pinned that here; names spelt nearly like it come along. */
export function noSuchTopic(name: string, near: readonly string[]): Refusal {
  const [first] = near;
  return {
    field: 'topic',
    message: `There is no standard answer "${shown(name)}" here.`,
    allowed: first === undefined ? 'a topic from: answer list' : `perhaps ${near.join(' or ')}; all: answer list`,
    example: first === undefined ? 'answer find chain length' : `answer show ${first}`,
  };
}

/** It was pinned once and is not now; nothing of it is lost. */
export function takenDown(version: AnswerVersion): Refusal {
  return {
    field: 'topic',
    message: `"${version.topic}" is not pinned any more: ${doneWords(version)}${because(version.why)}`,
    allowed: 'its history can be read, and a moderator can bring back any version of it',
    example: `answer history ${version.topic}`,
  };
}

function because(why: string): string {
  return why.trim() === '' ? '.' : ` (${why}).`;
}

/** That version of a topic is not there. */
export function noSuchVersion(topic: string, version: number, newest: number): Refusal {
  return {
    field: 'version',
    message: `"${topic}" has no version ${version}.`,
    allowed: newest === 1 ? 'version 1' : `versions 1 to ${newest}`,
    example: `answer history ${topic}`,
  };
}

/** Bringing back what stands already would add nothing. */
export function standsAlready({ topic, version }: AnswerVersion): Refusal {
  return {
    field: 'version',
    message: `Version ${version} of "${topic}" is the one that is shown now.`,
    allowed: 'an older version',
    example: `answer history ${topic}`,
  };
}

/** An edit that changes nothing. */
export function nothingToChange({ topic }: AnswerVersion): Refusal {
  return {
    field: 'text',
    message: `"${topic}" would stay just as it is.`,
    allowed: 'a new text, aliases=a,b (or none), from=#CODE for another card, from=today or from=none',
    example: `answer edit ${topic} Measure first, then cut. why="shorter"`,
  };
}

/** There is no card to solve again. */
export function noCard({ topic }: AnswerVersion): Refusal {
  return {
    field: 'from',
    message: `"${topic}" is words alone: it has no card to solve again.`,
    allowed: 'from=#CODE, the code under an answer given here',
    example: `answer edit ${topic} from=#7K3M9Q2A why="now with its card"`,
  };
}

/** The receipt is a question back, which says nothing to others. */
export function notAnAnswer(code: string): Refusal {
  return {
    field: 'from',
    message: `#${code} is a question back, not an answer yet.`,
    allowed: 'the code of an answer: settle the question first, then pin what comes',
    example: `convert #${code}`,
  };
}

/** The bike behind a receipt cannot be told again in one line. */
export function notSaidAgain(code: string): Refusal {
  return {
    field: 'from',
    message: `The bike behind #${code} reads differently by the rules of today.`,
    allowed: 'the code of an answer from today: ask again with the whole bike in the line',
    example: 'convert 2x10 36/22 11-36 29er hardtail 104bcd',
  };
}

/** A text that is none, or whose names cannot be used. */
export function textRefusal(refused: Extract<TextRefused, { readonly kind: 'nameless' | 'empty' | 'taken' }>): Refusal {
  switch (refused.kind) {
    case 'nameless':
      return {
        field: 'topic',
        message: `"${shown(refused.name)}" has no letter and no digit in it.`,
        allowed: `a topic or alias of up to ${LIMITS.topic} letters and digits; blanks become hyphens`,
        example: 'answer pin chain-length Measure first, then cut.',
      };
    case 'empty':
      return {
        field: 'text',
        message: 'There is neither a text nor an answer to pin.',
        allowed: 'a text, or from=#CODE with the code under an answer given here, or both',
        example: 'answer pin chain-length from=#7K3M9Q2A Measure first, then cut.',
      };
    case 'taken':
      return {
        field: 'topic',
        message: `"${refused.name}" already leads to the topic "${refused.topic}".`,
        allowed: 'a topic and aliases that nobody uses here',
        example: `answer show ${refused.topic}`,
      };
  }
}

/** Somebody changed the topic since the version that was meant. */
export function changedMeanwhile(theirs: AnswerVersion): Refusal {
  return {
    field: 'version',
    message: `"${theirs.topic}" has changed meanwhile: version ${theirs.version} was ${doneWords(theirs)}. Nothing was done.`,
    allowed: `version=${theirs.version}, once it has been read`,
    example: `answer show ${theirs.topic}`,
  };
}

/** There is no such draft, or none is asked for here. */
export function noSuchDraft(topic: string, draft: number, waits: AnswerDraft | null, approvals: boolean): Refusal {
  const other = waits === null ? 'no draft waits for it' : `draft ${waits.number} is the one that waits`;
  return {
    field: 'draft',
    message: `There is no draft ${draft} of "${shown(topic)}" to decide: ${other}.`,
    allowed: approvals
      ? 'a topic and number from: answer drafts'
      : 'this place asks for no second person: what moderators pin stands at once',
    example: waits === null ? 'answer drafts' : `answer drafts ${waits.topic}`,
  };
}

/** Whoever proposed it may not approve it. */
export function ownDraft({ topic, number, author, atMs }: AnswerDraft): Refusal {
  if (author.kind === 'gone') {
    return {
      field: 'draft',
      message: `Whoever proposed draft ${number} of "${topic}" had their data deleted, and you were first seen here after that: nothing tells you two apart.`,
      allowed: 'a moderator who was here before; or decline it and propose the text anew',
      example: `answer drafts ${topic}`,
    };
  }
  return {
    field: 'draft',
    message: `Draft ${number} of "${topic}" is your own, of ${day(atMs)}: a second person must approve it.`,
    allowed: 'another moderator of this place; you may take it back with decline',
    example: `answer drafts ${topic}`,
  };
}

/** For a moderator: the answer pinned is of today and not quite the one on the receipt. */
export function sinceLine(changed: number): string {
  return `Solved again for pinning: ${figures(changed)} changed since that answer was given.`;
}
