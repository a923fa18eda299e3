import type { Block, Button, Home, Input, Message, Modal, Option, StaticSelect } from './wire.ts';

/** Every limit of the platform that is kept here, each with the page of its documentation it was read from. */
export const LIMITS = {
  /** "Blocks": in a message, and in a modal or a home tab. */
  blocks: 50,
  viewBlocks: 100,
  /**
   * Blocks have a limit in all that no page states: `msg_blocks_too_long` was reported at some 13 200 characters
   * (issue 2509 of the framework); this stays well below.
   */
  blockBytes: 12_000,
  /** "chat.postMessage": text is cut beyond this; ours is one line. */
  text: 40_000,
  /** "Text object". */
  textObject: 3000,
  /** "Context block", "Actions block". */
  contextElements: 10,
  actionElements: 25,
  /** "Button element". */
  buttonText: 75,
  buttonValue: 2000,
  /** "Blocks", "Block elements": `block_id`, `action_id`. */
  id: 255,
  /** "Option object": 150 on its page, 75 in the published types; the smaller of the two. */
  optionText: 75,
  optionValue: 75,
  optionDescription: 75,
  /** "Select menu element". */
  options: 100,
  placeholder: 150,
  /** "Image block". */
  altText: 2000,
  imageTitle: 2000,
  imageUrl: 3000,
  /** "View object". */
  viewTitle: 24,
  viewButton: 24,
  metadata: 3000,
  /** "Input block", "Plain-text input element". */
  label: 2000,
  hint: 2000,
  inputValue: 3000,
  /** "Handling user interaction": how often and how long a `response_url` works. */
  responses: 5,
  responseMs: 30 * 60 * 1000,
  /** "Handling user interaction": the first answer, and the life of a `trigger_id`. */
  firstAnswerMs: 3000,
} as const;

/** Our own limits, all of them common practice. */
export const OURS = {
  /** Longer work is answered afterwards: a second is left for the way there and back. */
  patienceMs: LIMITS.firstAnswerMs - 1000,
  /** An address for answers is not trusted in its last minute. */
  responseMs: LIMITS.responseMs - 60 * 1000,
  /** One text of a page; a block of it stays readable on a phone. */
  textBytes: 3000,
  /**
   * How many payloads are remembered by their id, so that one delivered twice is answered once: an event comes again up
   * to five minutes later ("Events API", Retries), and these are 33 a second for so long. In all some 2 MB.
   */
  remembered: 10_000,
  /**
   * How many people and places are paced at once. Whoever was not heard of for twelve seconds is forgotten anyway, because
   * a burst is full again by then, so this many would be four thousand a second. In all some 12 MB.
   */
  paced: 50_000,
  /** Who somebody is, and which groups they are in, is believed for this long, and then forgotten. */
  believedMs: 5 * 60 * 1000,
  /**
   * How many people, groups and workspaces are remembered: 66 new ones a second, for as long as they are believed. People
   * are some 12 MB in all.
   */
  known: 20_000,
  /** The Web API is asked again once or twice, and not waited for longer than a person waits. */
  webTimeoutMs: 2500,
  webRetries: 2,
  /** How long the address of a picture works: a conversation is read again within a week. */
  pictureMs: 7 * 24 * 60 * 60 * 1000,
  /** An uploaded picture is looked at so often, so far apart, until the platform has taken it in. */
  uploadLooks: 6,
  uploadLookMs: 400,
  /** How many uploaded pictures are remembered by their file; the figure they show is at most 2 kB of text. */
  uploaded: 2000,
  /** Work begun before the end is finished within this, then let go. */
  farewellMs: 8000,
  /** A signed payload is a few thousand bytes, one with a long message in it a few ten thousand. */
  bodyBytes: 512 * 1024,
} as const;

/** What one person and one place may ask; suggestions come with every letter. */
export const PACES = {
  person: { burst: 8, everyMs: 1500 },
  place: { burst: 80, everyMs: 100 },
  typing: { burst: 40, everyMs: 150 },
} as const;

/** The size of blocks as they travel, in bytes. */
export function bytesOf(value: unknown): number {
  return Buffer.byteLength(JSON.stringify(value));
}

/** What of a message the platform would refuse, in words for our own log; empty when nothing. */
export function messageFaults({ text, blocks }: Message): readonly string[] {
  const faults = [...over('text', text, LIMITS.text), ...blocksFaults(blocks, LIMITS.blocks)];
  if (text.trim() === '') faults.push('no text');
  const bytes = bytesOf(blocks);
  if (bytes > LIMITS.blockBytes) faults.push(`blocks of ${bytes} bytes`);
  if (blocks.some((each) => each.type === 'input')) faults.push('an input in a message');
  return faults;
}

/** What of a modal or a home tab the platform would refuse. */
export function viewFaults(view: Modal | Home): readonly string[] {
  const faults = [...blocksFaults(view.blocks, LIMITS.viewBlocks)];
  if (view.type === 'home') return faults;
  const { callback_id, private_metadata, title, close, submit } = view;
  faults.push(
    ...over('callback id', callback_id, LIMITS.id),
    ...over('metadata', private_metadata, LIMITS.metadata),
    ...over('title', title.text, LIMITS.viewTitle),
    ...over('close', close.text, LIMITS.viewButton),
    ...over('submit', submit?.text ?? '', LIMITS.viewButton),
  );
  if (title.text.trim() === '') faults.push('no title');
  if (submit === undefined && view.blocks.some((each) => each.type === 'input')) faults.push('inputs without submit');
  return faults;
}

function blocksFaults(blocks: readonly Block[], most: number): string[] {
  const faults = blocks.flatMap(blockFaults);
  if (blocks.length === 0 || blocks.length > most) faults.push(`${blocks.length} blocks`);
  const ids = blocks.flatMap((each) => (each.type === 'input' ? [each.block_id] : []));
  if (new Set(ids).size < ids.length) faults.push('a block id twice');
  const actions = blocks.flatMap((each) => {
    if (each.type === 'actions') return each.elements.map((element) => element.action_id);
    return [];
  });
  if (new Set(actions).size < actions.length) faults.push('an action id twice');
  return faults;
}

function blockFaults(block: Block): readonly string[] {
  switch (block.type) {
    case 'rich_text': {
      const texts = block.elements.flatMap(({ elements }) => elements.map(({ text }) => text));
      return texts.length === 0 || texts.some((each) => each === '') ? ['an empty text'] : [];
    }
    case 'context':
      return [
        ...(block.elements.length === 0 || block.elements.length > LIMITS.contextElements
          ? [`a context of ${block.elements.length}`]
          : []),
        ...block.elements.flatMap(({ text }) => [
          ...over('context', text, LIMITS.textObject),
          ...empty('context', text),
        ]),
      ];
    case 'divider':
      return [];
    case 'image':
      return [
        ...over('alt text', block.alt_text, LIMITS.altText),
        ...empty('alt text', block.alt_text),
        ...over('image title', block.title?.text ?? '', LIMITS.imageTitle),
        ...over('image url', 'image_url' in block ? block.image_url : '', LIMITS.imageUrl),
      ];
    case 'actions': {
      const { elements } = block;
      const isOff = elements.length === 0 || elements.length > LIMITS.actionElements;
      return [...(isOff ? [`${elements.length} actions`] : []), ...elements.flatMap(elementFaults)];
    }
    case 'input':
      return inputFaults(block);
  }
}

function elementFaults(element: Button | StaticSelect): readonly string[] {
  const faults = [...over('action id', element.action_id, LIMITS.id), ...empty('action id', element.action_id)];
  if (element.type === 'static_select') return [...faults, ...selectFaults(element)];
  return [
    ...faults,
    ...over('button', element.text.text, LIMITS.buttonText),
    ...empty('button', element.text.text),
    ...over('button value', element.value, LIMITS.buttonValue),
  ];
}

function selectFaults({ placeholder, options, initial_option }: StaticSelect): readonly string[] {
  const faults = [...over('placeholder', placeholder.text, LIMITS.placeholder), ...options.flatMap(optionFaults)];
  if (options.length === 0 || options.length > LIMITS.options) faults.push(`a select of ${options.length}`);
  if (new Set(options.map(({ value }) => value)).size < options.length) faults.push('an option twice');
  if (initial_option !== undefined && !options.some(({ value }) => value === initial_option.value)) {
    faults.push('an initial option that is none of them');
  }
  return faults;
}

function optionFaults({ text, value, description }: Option): readonly string[] {
  return [
    ...over('option', text.text, LIMITS.optionText),
    ...empty('option', text.text),
    ...over('option value', value, LIMITS.optionValue),
    ...empty('option value', value),
    ...over('option description', description?.text ?? '', LIMITS.optionDescription),
  ];
}

function inputFaults({ block_id, label, hint, element }: Input): readonly string[] {
  const faults = [
    ...over('block id', block_id, LIMITS.id),
    ...over('label', label.text, LIMITS.label),
    ...empty('label', label.text),
    ...over('hint', hint?.text ?? '', LIMITS.hint),
    ...over('action id', element.action_id, LIMITS.id),
    ...over('placeholder', element.placeholder.text, LIMITS.placeholder),
  ];
  switch (element.type) {
    case 'static_select':
      return [...faults, ...selectFaults(element)];
    case 'external_select':
      return [...faults, ...(element.initial_option === undefined ? [] : optionFaults(element.initial_option))];
    case 'plain_text_input': {
      const most = element.max_length > LIMITS.inputValue ? ['an input that is too long'] : [];
      return [...faults, ...most, ...over('value', element.initial_value ?? '', element.max_length)];
    }
  }
}

function over(what: string, text: string, most: number): string[] {
  return text.length > most ? [`${what} of ${text.length}`] : [];
}

function empty(what: string, text: string): string[] {
  return text.trim() === '' ? [`${what} that is empty`] : [];
}
