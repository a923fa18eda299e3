import type { Who } from '../../src/records/place.ts';
import type { Records } from '../../src/records/records.ts';
import type { Reply, Request } from '../../src/request.ts';

/** An answer that was given: what was asked, by whom, and the records it speaks of. */
export type Given = {
  readonly reply: Reply;
  readonly request: Request;
  readonly who: Who;
  readonly records: Records;
};

/** Gives the messages one platform would be sent for an answer. */
export type Payloads = (given: Given) => Promise<unknown>;

/** The messages each platform would be sent, under its name; where one cannot be made, that is said in its place. */
export async function sentTo(
  platforms: Readonly<Record<string, Payloads>>,
  given: Given,
  fault: (error: unknown) => void,
): Promise<Readonly<Record<string, unknown>>> {
  const sent = Object.entries(platforms).map(async ([name, payloads]) => {
    try {
      return [name, await payloads(given)] as const;
    } catch (error) {
      fault(error);
      return [name, 'This message could not be made. Where the program was started stands why.'] as const;
    }
  });
  return Object.fromEntries(await Promise.all(sent));
}
