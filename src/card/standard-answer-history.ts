import type { Words } from '../commands/command.ts';
import type { AnswerVersion } from '../records/answers.ts';
import type { Block } from './card.ts';
import { bodyLines, doneWords, whyLines } from './standard-answer-people.ts';
import { questionWords, textChangeLines } from './standard-answer-text.ts';

/** Who changed a topic when and why, the newest first, each with what it changed; `more` when older ones are left. */
export function historyWords(
  newest: AnswerVersion,
  entries: readonly { readonly version: AnswerVersion; readonly before: AnswerVersion | null }[],
  more: boolean,
): Words {
  const { topic } = newest;
  const down = newest.deed === 'unpin';
  const oldest = entries.at(-1)?.version.version ?? 1;
  const blocks: Block[] = entries.map(({ version, before }) => entryBlock(version, before));
  const actions = [
    ...(more ? [{ label: 'Older', setup: `history ${topic} before=${oldest}` }] : []),
    ...entries.slice(1).map(({ version }) => ({
      label: `Read version ${version.version}`,
      setup: `history ${topic} version=${version.version}`,
    })),
    ...(down ? [] : [{ label: 'Show it', setup: `show ${topic}` }]),
  ];
  if (actions.length > 0) blocks.push({ kind: 'actions', section: 'kept', title: 'More', actions });
  return {
    answer: `${topic}: ${newest.version === 1 ? 'one version' : `${newest.version} versions`}${down ? ', taken down now' : ''}.`,
    lines: [`The newest: ${doneWords(newest)}.`],
    blocks,
  };
}

function entryBlock(version: AnswerVersion, before: AnswerVersion | null): Block {
  return {
    kind: 'text',
    section: 'summary',
    title: `Version ${version.version}: ${doneWords(version)}`,
    lines: [...whyLines(version.why), ...changed(version, before)],
  };
}

function changed(version: AnswerVersion, before: AnswerVersion | null): readonly string[] {
  if (version.deed === 'unpin') return ['Not shown from then on.'];
  return before === null ? wholeLines(version) : textChangeLines(before.text, version.text);
}

function wholeLines({ text }: AnswerVersion): readonly string[] {
  const lines = [...bodyLines(text.body)];
  if (text.aliases.length > 0) lines.push(`Also found as: ${text.aliases.join(', ')}.`);
  if (text.question !== null) {
    lines.push(`Its card: ${questionWords(text.question)}`, `Pinned by rules ${text.question.rules}.`);
  }
  return lines;
}

/** One version as it stood, to be read before it is brought back. */
export function versionWords(version: AnswerVersion, newest: AnswerVersion): Words {
  const { topic } = version;
  const shownNow = version.version === newest.version && newest.deed !== 'unpin';
  const restore = { label: 'Bring it back', setup: `restore ${topic} ${version.version} why=` };
  return {
    answer: `${topic}, version ${version.version}${shownNow ? ', shown now' : ` of ${newest.version}`}.`,
    lines: [`Version ${version.version}: ${doneWords(version)}.`, ...whyLines(version.why)],
    blocks: [
      { kind: 'text', section: 'summary', title: topic, lines: wholeLines(version) },
      {
        kind: 'actions',
        section: 'kept',
        title: 'More',
        actions: [...(shownNow ? [] : [restore]), { label: 'Whole history', setup: `history ${topic}` }],
      },
    ],
  };
}
