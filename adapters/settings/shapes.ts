import { z } from 'zod';

/** A whole number in digits. Six of them hold every port and every count there is here. */
export const Whole = (low: number, high: number) =>
  z
    .string()
    .regex(/^\d{1,6}$/, `is a whole number from ${low} to ${high}`)
    .transform(Number)
    .refine((value) => value >= low && value <= high, `is a whole number from ${low} to ${high}`);

/** Ports have sixteen bits; at 0 the machine chooses one that is free. */
export const Port = Whole(0, 65_535);

/** A line break or a blank in a token ends up in the message of whatever sends it. */
const VISIBLE = /^[\x21-\x7e]+$/;

export const Secret = z.string().regex(VISIBLE, 'has a blank, a line break or a letter that does not belong there');

/** The start of every token of its kind; what stands before it shows a token put in the wrong place. */
export const TokenFrom = (start: string) => Secret.startsWith(start, `begins with ${start}`);

/** What platforms give out is longer than what is asked for here: a shorter one is a piece, left over from copying. */
export const LongSecret = (least: number) => Secret.min(least, `has at least ${least} characters`);

const withoutSlash = (address: string) => address.replace(/\/+$/, '');

export const Address = z
  .url({ protocol: /^https?$/, error: 'is an address that begins with http' })
  .transform(withoutSlash);

export const SafeAddress = z
  .url({ protocol: /^https$/, error: 'is an address that begins with https' })
  .transform(withoutSlash);

export const Choice = <const Words extends readonly [string, ...string[]]>(words: Words) =>
  z.enum(words, `is ${words.length === 2 ? 'either ' : ''}${words.slice(0, -1).join(', ')} or ${words.at(-1)}`);

/** "0,2,5-7" as a list of numbers; a part of it is cut where it is longer than any count of shards. */
export const NumberList = (most: number) =>
  z
    .string()
    .regex(/^\d{1,5}(-\d{1,5})?(,\d{1,5}(-\d{1,5})?)*$/, 'is a list such as 0,1 or 0-3')
    .transform((text) =>
      text.split(',').flatMap((part) => {
        const [from = 0, to = from] = part.split('-').map(Number);
        return Array.from({ length: Math.max(0, Math.min(to - from + 1, most)) }, (_, index) => from + index);
      }),
    );
