/** What is said when only the platform or we ourselves are the reason; a card says everything else. */
export const WORDS = {
  unknownCommand: 'That command is not there any more. Type / to see the ones that are, or ask /help.',
  unknownButton: 'That button is from an older version. Ask again, and the new card has new ones.',
  replied: 'Your answer is posted.',
  noPlace: 'The platform did not say who asks and where. Try again in a server, or in a direct message to me.',
  slow: 'What is kept answers slowly just now. Nothing was changed: try again in a moment.',
  pinned: 'Pinned in this channel.',
} as const;

/** Somebody asks faster than anybody reads. */
export function tooFast(retryMs: number): string {
  const seconds = Math.ceil(retryMs / 1000);
  return `That was very fast. Nothing was lost: try again in ${seconds === 1 ? 'a second' : `${seconds} seconds`}.`;
}

/** Our fault, with the way to find it in the log. */
export function apology(logId: string): string {
  return `Something went wrong on our side (log id ${logId}). It was not your wording, and nothing was half done.`;
}

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
