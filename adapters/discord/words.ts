import { TROUBLE } from '../../src/card/trouble.ts';

/** What is said when only the platform or we ourselves are the reason; a card says everything else. */
export const WORDS = {
  ...TROUBLE,
  unknownCommand: 'That command is not there any more. Type / to see the ones that are, or ask /help.',
  replied: 'Your answer is posted.',
  noPlace: 'The platform did not say who asks and where. Try again in a server, or in a direct message to me.',
} as const;

/** Why a message could not be pinned in its channel, and what can be done. */
export const NOT_PINNED = {
  permission:
    'It is kept, but not pinned in the channel: I may not pin messages here. Give me "Pin Messages" in this channel, or pin it yourself.',
  full: 'It is kept, but not pinned in the channel: its list of pins is full. Take one down, then press the button again.',
  gone: 'It is kept, but not pinned in the channel: the message is gone, or I cannot see this channel.',
  withoutBot:
    'It is kept, but not pinned in the channel: I am not a member of this server with a bot account, so pinning is not mine to do.',
  other:
    'It is kept, but not pinned in the channel: the platform would not do it just now. Try the button again later.',
} as const;

export type NotPinned = keyof typeof NOT_PINNED;
