import type { Words } from '../commands/command.ts';
import type { AnswerDraft, AnswerVersion } from '../records/answers.ts';
import type { Block } from './card.ts';
import { decide, draftBlock } from './standard-answer-written.ts';

/** How much of a text a list shows: enough to know it again, a line on a phone. */
const GLIMPSE_CHARACTERS = 60;

/** A topic and the beginning of what it says. */
function topicLine(topic: string, body: string, command: string | null): string {
  const card = command === null ? '' : ` (card: ${command})`;
  const words = glimpse(body);
  return words === '' ? `${topic}${card}` : `${topic}${card}: ${words}`;
}

function glimpse(body: string): string {
  const flat = body.split('\n').join(' ').trim();
  if (flat.length <= GLIMPSE_CHARACTERS) return flat;
  const blank = flat.lastIndexOf(' ', GLIMPSE_CHARACTERS);
  return `${flat.slice(0, blank <= 0 ? GLIMPSE_CHARACTERS : blank)} …`;
}

function shows(title: string, topics: readonly string[]): readonly Block[] {
  const actions = topics.map((topic) => ({ label: topic, setup: `show ${topic}` }));
  return actions.length === 0 ? [] : [{ kind: 'actions', section: 'summary', title, actions }];
}

/** What was found, the best first, or what is spelt nearly like it. */
export function foundWords(
  words: string,
  topics: readonly { readonly topic: string; readonly body: string; readonly command: string | null }[],
  near: readonly string[],
  most: number,
): Words {
  if (topics.length > 0) {
    const full = topics.length === most;
    return {
      answer: topics.length === 1 ? 'One standard answer has these words.' : `${topics.length} standard answers.`,
      lines: full ? ['There may be more: another word narrows it.'] : [],
      blocks: [
        {
          kind: 'text',
          section: 'summary',
          title: 'Found',
          lines: topics.map(({ topic, body, command }) => topicLine(topic, body, command)),
        },
        ...shows(
          'Show',
          topics.map(({ topic }) => topic),
        ),
      ],
    };
  }
  return {
    answer: near.length > 0 ? 'Nothing with these words; some topics are spelt nearly like it.' : 'Nothing found.',
    lines: [
      `Looked for: ${words}`,
      'Every word must be in the topic, its aliases or its text; its beginning is enough.',
      ...(near.length > 0 ? [] : ['Every topic stands in: answer list. A moderator can pin what is missing.']),
    ],
    blocks: shows('Perhaps', near),
  };
}

/** Pinned topics by name; `next` is where the following page begins, or null at the end. */
export function listWords(versions: readonly AnswerVersion[], next: string | null): Words {
  if (versions.length === 0) {
    return {
      answer: 'No standard answers here.',
      lines: ['A moderator pins one: answer pin chain-length Measure first, then cut.'],
      blocks: [],
    };
  }
  const more: readonly Block[] =
    next === null
      ? []
      : [
          {
            kind: 'actions',
            section: 'summary',
            title: 'More',
            actions: [{ label: 'The next ones', setup: `list after=${next}` }],
          },
        ];
  const count = versions.length === 1 ? 'One standard answer' : `${versions.length} standard answers`;
  return {
    answer: next === null ? `${count}, by topic.` : `${count}, by topic; there are more.`,
    lines: [],
    blocks: [
      {
        kind: 'text',
        section: 'summary',
        title: 'Topics',
        lines: versions.map(({ topic, text }) => topicLine(topic, text.body, text.question?.command ?? null)),
      },
      ...shows(
        'Show',
        versions.map(({ topic }) => topic),
      ),
      ...more,
    ],
  };
}

/** Drafts that wait for a second person, each with what it would change; those past the first few by name. */
export function draftsWords(
  drafts: readonly { readonly draft: AnswerDraft; readonly before: AnswerVersion | null }[],
  others: readonly AnswerDraft[],
  approvals: boolean,
): Words {
  const count = drafts.length + others.length;
  if (count === 0) {
    return {
      answer: approvals ? 'No draft waits.' : 'No draft waits: here what moderators pin stands at once.',
      lines: [],
      blocks: [],
    };
  }
  const rest: readonly Block[] =
    others.length === 0
      ? []
      : [
          {
            kind: 'actions',
            section: 'summary',
            title: 'And these',
            actions: others.map(({ topic }) => ({ label: topic, setup: `drafts ${topic}` })),
          },
        ];
  return {
    answer: count === 1 ? 'One draft waits for a second moderator.' : `${count} drafts wait for a second moderator.`,
    lines: ['Whoever proposed a draft cannot approve it.'],
    blocks: [
      ...drafts.flatMap(({ draft, before }) => [draftBlock(draft, before?.text ?? null), decide(draft)]),
      ...rest,
    ],
  };
}
