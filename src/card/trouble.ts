/** What is said in every chat when the card is not the reason. */
export const TROUBLE = {
  unknownButton: 'That button is from an older version. Ask again, and the new card has new ones.',
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
