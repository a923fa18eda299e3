import type { Words } from '../commands/command.ts';
import type { AnswerVersion, PinnedQuestion } from '../records/answers.ts';
import type { Block } from './card.ts';
import type { Today } from './standard-answer.ts';
import { changeLines, figures } from './standard-answer-change.ts';
import { day } from './times.ts';

/** The few figures that tell a moderator what happened; the topic's own card has more. */
const CHANGES_SHOWN = 5;

/** A pinned answer that no longer holds. */
export type Stale = { readonly version: AnswerVersion; readonly pinned: PinnedQuestion; readonly today: Today };

/**
 * Topics whose card is not what was pinned, each with then and now. `next` is where to go on when not all have been
 * looked at; `accept` offers a moderator to pin the answers of today.
 */
export function staleWords(
  stale: readonly Stale[],
  { looked, next, accept }: { readonly looked: number; readonly next: string | null; readonly accept: boolean },
): Words {
  const blocks: Block[] = stale.map(staleBlock);
  const actions = stale.flatMap(({ version: { topic }, today }) => [
    { label: `Show ${topic}`, setup: `show ${topic}` },
    ...(accept && today.kind === 'answered' ? [acceptance(topic, today.rules)] : []),
  ]);
  if (next !== null) actions.push({ label: 'Look further', setup: `stale after=${next}` });
  if (actions.length > 0) blocks.push({ kind: 'actions', section: 'summary', title: 'Next', actions });
  const lines = [`Solved again: ${looked} pinned ${looked === 1 ? 'question' : 'questions'}.`];
  if (next !== null) lines.push(`Not all yet, up to "${next}": go on with answer stale after=${next}`);
  return { answer: summary(stale.length, looked, next !== null), lines, blocks };
}

function acceptance(topic: string, rules: string) {
  return { label: `Pin today's answer to ${topic}`, setup: `edit ${topic} from=today why="by rules ${rules}"` };
}

function summary(stale: number, looked: number, more: boolean): string {
  if (looked === 0) return 'No standard answer has a card, so none can go stale.';
  const so = more ? 'So far ' : '';
  if (stale === 0) return more ? 'So far every pinned answer still holds.' : 'Every pinned answer still holds.';
  const what = stale === 1 ? 'one pinned answer no longer holds' : `${stale} pinned answers no longer hold`;
  return so === '' ? `${what.slice(0, 1).toUpperCase()}${what.slice(1)}.` : `${so}${what}.`;
}

function staleBlock({ version, pinned, today }: Stale): Block {
  const rules = `Pinned by rules ${pinned.rules}, version ${version.version} of ${day(version.atMs)}; rules ${today.rules} now.`;
  const lines =
    today.kind === 'unanswered'
      ? [`It has no answer any more: ${today.refusal.message}`]
      : [
          `${figures(today.changes.length)} changed:`,
          ...changeLines(today.changes, pinned.result, today.result, CHANGES_SHOWN),
        ];
  return { kind: 'text', section: 'summary', title: version.topic, lines: [rules, ...lines] };
}
