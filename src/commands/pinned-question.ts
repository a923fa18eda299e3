import type { Bike } from '../bike/bike.ts';
import type { Refusal } from '../bike/reading.ts';
import { sayBack } from '../bike/say-back.ts';
import { noReceipt } from '../card/kept.ts';
import type { Today } from '../card/standard-answer.ts';
import { notAnAnswer, notSaidAgain } from '../card/standard-answer-refusal.ts';
import type { PinnedQuestion } from '../records/answers.ts';
import { readReceiptCode } from '../records/receipts.ts';
import { canonicalJson, type ResultChange, resultChanges } from '../records/result-difference.ts';
import { RULES } from '../records/rules.ts';
import type { Settings } from '../records/settings.ts';
import type { Reply } from '../request.ts';
import type { Visit } from './kept.ts';

/** A question about a bike as it was typed. */
type Typed = Pick<PinnedQuestion, 'command' | 'setup' | 'options'>;

type Answered = Extract<Reply, { readonly kind: 'answered' }>;

/** A question with its snapshot of today. */
export type Snapshot =
  | {
      readonly kind: 'pinned';
      readonly question: PinnedQuestion;
      /** Where it differs from the answer on the receipt, because the rules have moved on since. */
      readonly since: readonly ResultChange[];
    }
  | { readonly kind: 'refused'; readonly refusal: Refusal };

/** Solves a pinned question as the rules stand now, in the place's units. */
export function solveToday(pinned: PinnedQuestion, visit: Visit, settings: Settings): Today {
  const reply = solveTyped(pinned, visit, settings);
  if (reply.kind !== 'answered') return { kind: 'unanswered', refusal: reply.refusal, rules: RULES };
  const { answer, card, read } = reply;
  const result = canonicalJson(answer);
  const changes = resultChanges(pinned.result, result);
  return { kind: 'answered', card, read, answer, rules: RULES, result, changes };
}

function solveTyped({ command, setup, options }: Typed, visit: Visit, { units }: Settings) {
  return visit.solve({ command, setup, options, ...(units === 'imperial' ? { known: { units } } : {}) });
}

/** The question behind a receipt, with its answer of today: a pinned answer starts out true. */
export async function fromReceipt(code: string, visit: Visit, settings: Settings): Promise<Snapshot> {
  const read = readReceiptCode(code);
  const kept = read === null ? null : await visit.records.receipts.read(visit.who.place, read);
  if (kept === null) return { kind: 'refused', refusal: noReceipt(code) };
  const given = JSON.parse(kept.answer) as Reply;
  if (given.kind !== 'answered') return { kind: 'refused', refusal: notAnAnswer(kept.code) };

  const typed = selfContained(kept, given.read, visit, settings);
  if (typed === null) return { kind: 'refused', refusal: notSaidAgain(kept.code) };
  const reply = solveTyped(typed, visit, settings);
  if (reply.kind !== 'answered') return { kind: 'refused', refusal: reply.refusal };
  const question = snapshot(typed, reply);
  return { kind: 'pinned', question, since: resultChanges(canonicalJson(given.answer), question.result) };
}

/** The same question with its answer of today. */
export function solvedAnew(pinned: PinnedQuestion, visit: Visit, settings: Settings): Snapshot {
  const reply = solveTyped(pinned, visit, settings);
  if (reply.kind !== 'answered') return { kind: 'refused', refusal: reply.refusal };
  const question = snapshot(pinned, reply);
  return { kind: 'pinned', question, since: resultChanges(pinned.result, question.result) };
}

function snapshot({ command, setup, options }: Typed, { answer, card }: Answered): PinnedQuestion {
  return { command, setup, options, rules: RULES, result: canonicalJson(answer), card: JSON.stringify(card) };
}

/**
 * The question in words that need nothing else. What was typed may have rested on a kept bike or on the question before
 * it; then the bike that was read is said back, which reads as the same bike. Null where it does not. Units that only
 * the place asked for stay the place's.
 */
function selfContained(typed: Typed, bike: Bike, visit: Visit, settings: Settings): Typed | null {
  const { command } = typed;
  const { units, ...unitless } = bike;
  const ofPlace = units === 'imperial' && settings.units === units;
  const said = { command, setup: sayBack(ofPlace ? unitless : bike), options: {} };
  const wanted = canonicalJson(bike);
  for (const { setup, options } of [typed, said]) {
    const reply = solveTyped({ command, setup, options }, visit, settings);
    if (reply.kind === 'answered' && canonicalJson(reply.read) === wanted) return { command, setup, options };
  }
  return null;
}
