import { describe, expect, it } from 'vitest';
import { plain } from '../../adapters/slack/escape.ts';
import { LIMITS, messageFaults, viewFaults } from '../../adapters/slack/limits.ts';
import type { Actions, Block, Button, Message, Modal, Option } from '../../adapters/slack/wire.ts';

const SAID: Block = {
  type: 'rich_text',
  elements: [{ type: 'rich_text_section', elements: [{ type: 'text', text: 'said' }] }],
};

function message(blocks: readonly Block[], text = 'said'): Message {
  return { text, blocks, unfurl_links: false, unfurl_media: false };
}

function button(id: string, text = 'Why', value = 'v'): Button {
  return { type: 'button', text: plain(text), action_id: id, value };
}

function actions(...elements: readonly Actions['elements'][number][]): Block {
  return { type: 'actions', elements };
}

function select(options: readonly Option[], placeholder = 'More', action_id = 's'): Actions['elements'][number] {
  return { type: 'static_select', action_id, placeholder: plain(placeholder), options };
}

function option(text: string, value = text, description = ''): Option {
  return { text: plain(text), value, ...(description === '' ? {} : { description: plain(description) }) };
}

function sized(bytes: number): Block {
  const empty = JSON.stringify([
    { ...SAID, elements: [{ type: 'rich_text_section', elements: [{ type: 'text', text: '' }] }] },
  ]);
  const text = 'x'.repeat(bytes - empty.length);
  return { type: 'rich_text', elements: [{ type: 'rich_text_section', elements: [{ type: 'text', text }] }] };
}

/** What stands at its limit, and the same one past it. */
const MESSAGES: readonly (readonly [string, (most: number) => Message, number])[] = [
  ['blocks', (most) => message(Array.from({ length: most }, () => SAID)), LIMITS.blocks],
  ['bytes in all', (most) => message([sized(most)]), LIMITS.blockBytes],
  ['the text of a button', (most) => message([actions(button('a', 'x'.repeat(most)))]), LIMITS.buttonText],
  ['the value of a button', (most) => message([actions(button('a', 'x', 'x'.repeat(most)))]), LIMITS.buttonValue],
  ['an action id', (most) => message([actions(button('x'.repeat(most)))]), LIMITS.id],
  [
    'a row',
    (most) => message([actions(...Array.from({ length: most }, (_, at) => button(`a${at}`)))]),
    LIMITS.actionElements,
  ],
  [
    'options',
    (most) => message([actions(select(Array.from({ length: most }, (_, at) => option(`o${at}`))))]),
    LIMITS.options,
  ],
  ['an option', (most) => message([actions(select([option('x'.repeat(most), 'v')]))]), LIMITS.optionText],
  ['the value of an option', (most) => message([actions(select([option('x', 'x'.repeat(most))]))]), LIMITS.optionValue],
  [
    'what is said of an option',
    (most) => message([actions(select([option('x', 'v', 'x'.repeat(most))]))]),
    LIMITS.optionDescription,
  ],
  ['a placeholder', (most) => message([actions(select([option('x')], 'x'.repeat(most)))]), LIMITS.placeholder],
  ['a context', (most) => message([{ type: 'context', elements: [plain('x'.repeat(most))] }]), LIMITS.textObject],
  [
    'contexts',
    (most) => message([{ type: 'context', elements: Array.from({ length: most }, () => plain('x')) }]),
    LIMITS.contextElements,
  ],
  [
    'the words of a picture',
    (most) => message([{ type: 'image', image_url: 'x', alt_text: 'x'.repeat(most) }]),
    LIMITS.altText,
  ],
  [
    'the address of a picture',
    (most) => message([{ type: 'image', image_url: 'x'.repeat(most), alt_text: 'x' }]),
    LIMITS.imageUrl,
  ],
];

describe('a message', () => {
  it.each(MESSAGES)('passes with %s at the limit and not past it', (_, made, most) => {
    expect(messageFaults(made(most))).toEqual([]);
    expect(messageFaults(made(most + 1))).not.toEqual([]);
  });

  it.each([
    ['no text', message([SAID], ' ')],
    ['no blocks', message([])],
    ['an action id twice', message([actions(button('a')), actions(button('a'))])],
    ['an option twice', message([actions(select([option('x'), option('x')]))])],
    ['an empty text', message([{ type: 'rich_text', elements: [{ type: 'rich_text_section', elements: [] }] }])],
    ['a button without words', message([actions(button('a', ' '))])],
  ])('does not pass with %s', (_, made) => {
    expect(messageFaults(made)).not.toEqual([]);
  });
});

function modal(change: Partial<Modal>): Modal {
  return {
    type: 'modal',
    callback_id: 'c',
    private_metadata: '',
    title: plain('Title'),
    close: plain('Close'),
    submit: plain('Ask'),
    blocks: [SAID],
    ...change,
  };
}

describe('a window', () => {
  it.each<readonly [string, (most: number) => Partial<Modal>, number]>([
    ['its title', (most) => ({ title: plain('x'.repeat(most)) }), LIMITS.viewTitle],
    ['its button', (most) => ({ submit: plain('x'.repeat(most)) }), LIMITS.viewButton],
    ['its metadata', (most) => ({ private_metadata: 'x'.repeat(most) }), LIMITS.metadata],
    ['its blocks', (most) => ({ blocks: Array.from({ length: most }, () => SAID) }), LIMITS.viewBlocks],
  ])('passes with %s at the limit and not past it', (_, change, most) => {
    expect(viewFaults(modal(change(most)))).toEqual([]);
    expect(viewFaults(modal(change(most + 1)))).not.toEqual([]);
  });

  it('with fields must have a button to send them, and each field a name of its own', () => {
    const { submit: _, ...without } = modal({});
    const field: Block = {
      type: 'input',
      block_id: 'setup',
      label: plain('The bike'),
      optional: true,
      element: { type: 'plain_text_input', action_id: 't', multiline: false, placeholder: plain('x'), max_length: 10 },
    };
    expect(viewFaults(modal({ blocks: [field] }))).toEqual([]);
    expect(viewFaults({ ...without, blocks: [field] })).not.toEqual([]);
    expect(viewFaults(modal({ blocks: [field, field] }))).not.toEqual([]);
  });
});
