import { overRefusal } from '../card/kept.ts';
import { textRefusal } from '../card/standard-answer-refusal.ts';
import {
  type Attempt,
  conflictWords,
  draftedWords,
  draftWaitsWords,
  keptWords,
} from '../card/standard-answer-written.ts';
import type { AnswerText, AnswerVersion, TextRefused, Written } from '../records/answers.ts';
import type { KeptOutcome } from './kept.ts';
import { draftData, textData, versionData } from './standard-answer-fields.ts';

/** What came of a text: kept, a draft now, or not kept, and then with both texts so that none is lost. */
export function writtenOutcome(
  attempt: Attempt,
  topic: string,
  written: Written | TextRefused,
  before: AnswerText | null,
  note: readonly string[] = [],
): KeptOutcome {
  switch (written.kind) {
    case 'kept':
      return keptOutcome(written.version, before, note);
    case 'drafted':
      return {
        kind: 'done',
        words: draftedWords(written.draft, before, note),
        result: { kind: 'drafted', ...draftData(written.draft) },
      };
    case 'conflict': {
      const { mine, theirs } = written;
      return {
        kind: 'done',
        words: conflictWords(attempt, theirs?.topic ?? topic, mine, theirs),
        result: { kind: 'conflict', mine: textData(mine), theirs: theirs === null ? null : versionData(theirs) },
      };
    }
    case 'draft-waits': {
      const { mine, draft } = written;
      return {
        kind: 'done',
        words: draftWaitsWords(mine, draft),
        result: { kind: 'draft-waits', mine: textData(mine), draft: draftData(draft) },
      };
    }
    case 'over':
      return { kind: 'refused', refusal: overRefusal(written) };
    case 'nameless':
    case 'empty':
    case 'taken':
      return { kind: 'refused', refusal: textRefusal(written) };
  }
}

/** A new version stands. */
export function keptOutcome(
  version: AnswerVersion,
  before: AnswerText | null,
  note: readonly string[] = [],
): KeptOutcome {
  return {
    kind: 'done',
    words: keptWords(version, before, note),
    result: { kind: 'kept', ...versionData(version) },
  };
}
