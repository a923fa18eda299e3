import type { Signer } from '../records/job-events.ts';
import type { Author } from '../records/place.ts';

export type Signers = ReadonlyMap<Signer, Author>;

/** Who did something: as the platform knows them, or that they were deleted. Ids are shown as they are. */
export function authorWords(author: Author | undefined): string {
  if (author === undefined) return 'somebody whose entries were all taken back';
  return author.kind === 'gone' ? 'somebody deleted' : author.person;
}

/** The second of two people; two deleted people are still two. */
export function secondWords(signers: Signers, first: Signer, second: Signer): string {
  const deleted = signers.get(first)?.kind === 'gone' && signers.get(second)?.kind === 'gone';
  return deleted ? 'somebody else deleted' : authorWords(signers.get(second));
}
