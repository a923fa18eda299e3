import type { Over } from './limits.ts';
import type { Author, Place, Who } from './place.ts';

/** The question behind a pinned card, and what it gave on the day it was pinned. */
export type PinnedQuestion = {
  readonly command: string;
  readonly setup: string;
  readonly options: Readonly<Record<string, string>>;
  /** Which rules and tables answered. */
  readonly rules: string;
  /** The machine-readable answer of that day, as canonical JSON. */
  readonly result: string;
  /** The card of that day, as JSON. */
  readonly card: string;
};

/** What a standard answer says: a moderator's text, a question that is solved anew when shown, or both. */
export type AnswerText = {
  readonly aliases: readonly string[];
  readonly body: string;
  readonly question: PinnedQuestion | null;
};

export type Deed = 'pin' | 'edit' | 'restore' | 'unpin';

/** One entry of a topic's history. Versions count 1, 2, 3 and so on; taking an answer down is a version as well. */
export type AnswerVersion = {
  readonly topic: string;
  readonly version: number;
  readonly deed: Deed;
  /** Which version a restore brought back. */
  readonly restored: number | null;
  readonly text: AnswerText;
  readonly why: string;
  readonly author: Author;
  /** The second person, where the place asks for one. */
  readonly approver: Author | null;
  readonly atMs: number;
};

/** A proposal that waits for a second person. */
export type AnswerDraft = {
  readonly topic: string;
  readonly number: number;
  readonly deed: Deed;
  readonly restored: number | null;
  /** The version it started from; 0 for a new topic. */
  readonly basedOn: number;
  readonly text: AnswerText;
  readonly why: string;
  readonly author: Author;
  readonly atMs: number;
};

export type NewText = {
  readonly topic: string;
  /** An unpin is no text: see {@link Answers.unpin}. */
  readonly deed: Exclude<Deed, 'unpin'>;
  readonly restored: number | null;
  /** The version the writer had before them; 0 when there was none. Whoever comes second is told. */
  readonly basedOn: number;
  readonly text: AnswerText;
  readonly why: string;
  /** With a second person asked for, the text becomes a draft. */
  readonly needsApproval: boolean;
};

/**
 * Why a text was not kept. `conflict`: somebody changed the topic meanwhile; both texts come back, so none is lost.
 * `taken`: a name belongs to another topic. `draft-waits`: one proposal at a time. `nameless`: no letter or digit in a
 * name. `empty`: neither text nor question.
 */
export type TextRefused =
  | Over
  | { readonly kind: 'nameless'; readonly name: string }
  | { readonly kind: 'empty' }
  | { readonly kind: 'conflict'; readonly mine: AnswerText; readonly theirs: AnswerVersion | null }
  | { readonly kind: 'taken'; readonly name: string; readonly topic: string }
  | { readonly kind: 'draft-waits'; readonly mine: AnswerText; readonly draft: AnswerDraft };

export type Written =
  | { readonly kind: 'kept'; readonly version: AnswerVersion }
  | { readonly kind: 'drafted'; readonly draft: AnswerDraft };

export type Approved =
  | { readonly kind: 'kept'; readonly version: AnswerVersion }
  | { readonly kind: 'missing' }
  /**
   * Whoever proposed it may not approve it; nor, when they are gone, somebody first seen here after they went, who may
   * be the same person.
   */
  | { readonly kind: 'own-draft'; readonly draft: AnswerDraft }
  /**
   * The topic has changed since the draft was proposed. Nothing of it is kept yet: it now waits on what stands, under a
   * number of its own, so that it is approved only by somebody who has seen both.
   */
  | { readonly kind: 'moved'; readonly draft: AnswerDraft; readonly theirs: AnswerVersion }
  | Exclude<TextRefused, { readonly kind: 'conflict' | 'draft-waits' }>;

export type Shown =
  | { readonly kind: 'shown'; readonly version: AnswerVersion }
  /** Taken down, and can be brought back. */
  | { readonly kind: 'unpinned'; readonly version: AnswerVersion }
  | { readonly kind: 'missing'; readonly near: readonly string[] };

export type Found = {
  /** The best first. */
  readonly topics: readonly { readonly topic: string; readonly body: string; readonly command: string | null }[];
  /** When nothing was found: topics whose name or alias is spelt nearly like the words looked for. */
  readonly near: readonly string[];
};

export type Answers = {
  /** By topic or alias, in any spelling that means the same. */
  readonly show: (place: Place, name: string) => Promise<Shown>;
  /** All words must be in topic, aliases or body, each whole or as a beginning. */
  readonly find: (place: Place, words: string, most: number) => Promise<Found>;
  /** Pinned topics in order of name, `most` of them after `after` (empty to begin). */
  readonly list: (place: Place, after: string, most: number) => Promise<readonly AnswerVersion[]>;
  /** Pinned topics that carry a question, paged like {@link Answers.list}: what a check for stale answers walks through. */
  readonly questions: (place: Place, after: string, most: number) => Promise<readonly AnswerVersion[]>;
  readonly write: (who: Who, text: NewText, atMs: number) => Promise<Written | TextRefused>;
  /** Takes a topic down; its history stays and `restore` brings it back. */
  readonly unpin: (
    who: Who,
    unpin: { readonly topic: string; readonly basedOn: number; readonly why: string },
    atMs: number,
  ) => Promise<
    | { readonly kind: 'kept'; readonly version: AnswerVersion }
    | { readonly kind: 'missing' }
    | { readonly kind: 'conflict'; readonly theirs: AnswerVersion }
    | Over
  >;
  /** The newest first, `most` of them before version `before` (Infinity to begin). */
  readonly history: (place: Place, name: string, before: number, most: number) => Promise<readonly AnswerVersion[]>;
  readonly version: (place: Place, name: string, version: number) => Promise<AnswerVersion | null>;
  readonly drafts: (place: Place) => Promise<readonly AnswerDraft[]>;
  readonly approve: (who: Who, topic: string, draft: number, atMs: number) => Promise<Approved>;
  /** Declines a draft, or takes back one's own; the text stays in the records. */
  readonly decline: (
    who: Who,
    topic: string,
    draft: number,
    why: string,
    atMs: number,
  ) => Promise<{ readonly kind: 'declined'; readonly draft: AnswerDraft } | { readonly kind: 'missing' } | Over>;
};
