import { describe, expect, it } from 'vitest';
import { LIMITS, messageFaults, modalFaults } from '../../adapters/discord/limits.ts';
import type { Button, Message, Modal, Row, SelectOption } from '../../adapters/discord/wire.ts';
import { callbackFaults } from '../support/discord-rules.ts';

const NOTHING: Message = { content: 'x', embeds: [], components: [], allowed_mentions: { parse: [] }, attachments: [] };

const button = (id: string, label = 'x'): Button => ({ type: 2, style: 2, label, custom_id: id });
const row = (...components: Row['components']): Row => ({ type: 1, components });
const embed = (description: string, title?: string) => ({
  description,
  color: 1,
  ...(title === undefined ? {} : { title }),
});
const select = (options: readonly SelectOption[], placeholder = 'x'): Row =>
  row({ type: 3, custom_id: 'list', placeholder, options });
const option = (value: string, label = 'x', description = 'x'): SelectOption => ({ value, label, description });
const buttons = (count: number) => Array.from({ length: count }, (_, index) => button(`b${index}`));
const rows = (count: number) => Array.from({ length: count }, (_, index) => row(button(`r${index}`)));
const choices = (count: number) => Array.from({ length: count }, (_, index) => option(`v${index}`));

/** At the limit, and one past it. */
const CASES: readonly (readonly [string, Partial<Message>, Partial<Message>])[] = [
  ['content', { content: 'x'.repeat(LIMITS.content) }, { content: 'x'.repeat(LIMITS.content + 1) }],
  ['embed description', { embeds: [embed('x'.repeat(4096))] }, { embeds: [embed('x'.repeat(4097))] }],
  ['embed title', { embeds: [embed('x', 'x'.repeat(256))] }, { embeds: [embed('x', 'x'.repeat(257))] }],
  [
    'embeds in all',
    { embeds: [embed('x'.repeat(4000)), embed('x'.repeat(2000))] },
    { embeds: [embed('x'.repeat(4000)), embed('x'.repeat(2001))] },
  ],
  [
    'embeds',
    { embeds: Array.from({ length: 10 }, () => embed('x')) },
    { embeds: Array.from({ length: 11 }, () => embed('x')) },
  ],
  ['an embed that says something', { embeds: [embed('x')] }, { embeds: [embed(' ')] }],
  ['rows', { components: rows(5) }, { components: rows(6) }],
  ['buttons in a row', { components: [row(...buttons(5))] }, { components: [row(...buttons(6))] }],
  [
    'a button label',
    { components: [row(button('a', 'x'.repeat(80)))] },
    { components: [row(button('a', 'x'.repeat(81)))] },
  ],
  ['a label that says something', { components: [row(button('a'))] }, { components: [row(button('a', ' '))] }],
  ['a custom id', { components: [row(button('x'.repeat(100)))] }, { components: [row(button('x'.repeat(101)))] }],
  [
    'custom ids that differ',
    { components: [row(button('a'), button('b'))] },
    { components: [row(button('a'), button('a'))] },
  ],
  ['choices of a list', { components: [select(choices(25))] }, { components: [select(choices(26))] }],
  ['choices at all', { components: [select(choices(1))] }, { components: [select([])] }],
  [
    'values that differ',
    { components: [select([option('a'), option('b')])] },
    { components: [select([option('a'), option('a')])] },
  ],
  ['a value', { components: [select([option('x'.repeat(100))])] }, { components: [select([option('x'.repeat(101))])] }],
  [
    'a choice',
    { components: [select([option('a', 'x'.repeat(100))])] },
    { components: [select([option('a', 'x'.repeat(101))])] },
  ],
  [
    'a description',
    { components: [select([option('a', 'x', 'x'.repeat(100))])] },
    { components: [select([option('a', 'x', 'x'.repeat(101))])] },
  ],
  [
    'a placeholder',
    { components: [select(choices(1), 'x'.repeat(150))] },
    { components: [select(choices(1), 'x'.repeat(151))] },
  ],
];

describe('a message', () => {
  it.each(CASES)(
    'at the limit of %s passes, one past it does not: by our own rules and by the platform’s',
    (_, at, past) => {
      for (const [message, passes] of [
        [{ ...NOTHING, ...at }, true],
        [{ ...NOTHING, ...past }, false],
      ] as const) {
        expect(messageFaults(message).length === 0).toBe(passes);
        expect(callbackFaults({ type: 4, data: { ...message, flags: 64 } }).length === 0).toBe(passes);
      }
    },
  );

  it('that says nothing does not pass', () => {
    expect(messageFaults({ ...NOTHING, content: '' })).not.toEqual([]);
  });

  it('with a picture passes with its file and its words, and not without', () => {
    const message = { ...NOTHING, attachments: [{ id: '0', description: 'x'.repeat(1024) }] };
    expect(messageFaults(message)).toEqual([]);
    expect(callbackFaults({ type: 4, data: message }, ['a.png'])).toEqual([]);
    expect(callbackFaults({ type: 4, data: message }, [])).not.toEqual([]);
    expect(messageFaults({ ...NOTHING, attachments: [{ id: '0', description: 'x'.repeat(1025) }] })).not.toEqual([]);
  });

  it('that could notify somebody is caught by the rules tests check with', () => {
    expect(callbackFaults({ type: 4, data: { content: 'x' } })).not.toEqual([]);
    expect(callbackFaults({ type: 4, data: { content: 'x', allowed_mentions: { parse: ['users'] } } })).not.toEqual([]);
  });
});

describe('a modal', () => {
  const field = (name: string, more: object = {}): Modal['components'][number] => ({
    type: 18,
    label: name,
    component: { type: 4, custom_id: name, style: 1, required: false, max_length: 10, ...more },
  });
  const modal = (components: Modal['components'], title = 'x'): Modal => ({ custom_id: 'm', title, components });
  const fields = (count: number) => Array.from({ length: count }, (_, index) => field(`f${index}`));

  it.each([
    ['fields', modal(fields(5)), modal(fields(6))],
    ['a title', modal(fields(1), 'x'.repeat(45)), modal(fields(1), 'x'.repeat(46))],
    ['a label', modal([field('x'.repeat(45))]), modal([field('x'.repeat(46))])],
    ['its own room', modal([field('a', { value: 'x'.repeat(10) })]), modal([field('a', { value: 'x'.repeat(11) })])],
    ['an input', modal([field('a', { max_length: 4000 })]), modal([field('a', { max_length: 4001 })])],
    [
      'a placeholder',
      modal([field('a', { placeholder: 'x'.repeat(100) })]),
      modal([field('a', { placeholder: 'x'.repeat(101) })]),
    ],
  ])('at the limit of %s passes, one past it does not', (_, at, past) => {
    expect(modalFaults(at)).toEqual([]);
    expect(callbackFaults({ type: 9, data: at })).toEqual([]);
    expect(modalFaults(past)).not.toEqual([]);
    expect(callbackFaults({ type: 9, data: past })).not.toEqual([]);
  });
});
