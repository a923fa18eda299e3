import { TROUBLE } from '../../src/card/trouble.ts';

/** What is said when only the platform or we ourselves are the reason; a card says everything else. */
export const WORDS = {
  ...TROUBLE,
  noPlace: 'The platform did not say who asks and where. Try again in a channel, or on my Home tab.',
  notInstalled:
    'I am not installed in this workspace any more, or not yet. Whoever runs it can install me again; nothing kept here was deleted.',
  replied: 'Your answer is posted in the thread.',
  notReplied:
    'Your answer could not be posted there: invite me to this channel, then try again. This is what I would post:',
  notPosted: 'It could not be posted here: invite me to this channel, then press the button again.',
  pagePosted: 'The page is posted here, as a file to print.',
  noPicture: 'Pictures cannot be shown here; their words are in the text.',
  tooMuch: 'This is more than a window holds. Ask for it in a channel; pages that follow there:',
  tooLong: 'Your own line and the answer are too long for one message. Make your line shorter.',
} as const;

/** Why a message could not be pinned in its channel, and what can be done. */
export const NOT_PINNED = {
  permission:
    'It is not pinned in the channel: I may not pin messages here. Ask who runs the workspace for the right to, or pin it yourself.',
  outside: 'It is not pinned in the channel: I am not in it. Invite me, then press the button again.',
  gone: 'It is not pinned in the channel: the message is gone, or it is one that cannot be pinned.',
  full: 'It is not pinned in the channel: its list of pins is full. Take one down, then press the button again.',
  other: 'It is not pinned in the channel: the platform would not do it just now. Try the button again later.',
} as const;

export type NotPinned = keyof typeof NOT_PINNED;

/** The platform's words for why a pin was refused ("pins.add", Errors), and ours. */
export const PIN_ERRORS: Readonly<Record<string, NotPinned | null>> = {
  already_pinned: null,
  not_in_channel: 'outside',
  channel_not_found: 'outside',
  is_archived: 'permission',
  missing_scope: 'permission',
  permission_denied: 'permission',
  restricted_action: 'permission',
  message_not_found: 'gone',
  bad_timestamp: 'gone',
  no_item_specified: 'gone',
  not_pinnable: 'gone',
  // A channel holds a hundred pins; the page names no code for one more, and this one is from memory.
  too_many_pins: 'full',
};

/** Why a page could not be posted, and what can be done. */
export const NO_PAGE = {
  outside: WORDS.notPosted,
  permission:
    'The page could not be posted: I may not send files here. Ask who runs the workspace to let me (files:write), then press the button again.',
  other: 'The page could not be posted: the platform would not take it just now. Press the button again in a moment.',
} as const;

/** The platform's words for why a file was refused, and ours; from memory, so an unknown one is another reason. */
export const FILE_ERRORS: Readonly<Record<string, keyof typeof NO_PAGE>> = {
  not_in_channel: 'outside',
  channel_not_found: 'outside',
  invalid_channel: 'outside',
  missing_scope: 'permission',
  not_allowed_token_type: 'permission',
  file_uploads_disabled: 'permission',
  restricted_action: 'permission',
  is_archived: 'permission',
  posting_to_general_channel_denied: 'permission',
};
