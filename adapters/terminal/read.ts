import { z } from 'zod';
import type { Refusal } from '../../src/bike/reading.ts';
import type { Request } from '../../src/request.ts';
import { LINE_BYTES } from './limits.ts';
import { askedOf, USUAL_COMMAND } from './line.ts';

/** A typed option's value: machines write numbers and truths as such, the desk reads words. */
const OptionValue = z
  .union([z.string(), z.number(), z.boolean().transform((yes) => (yes ? 'yes' : 'no'))])
  .transform(String);

/** One request on standard input. */
const RequestLine = z.strictObject({
  command: z.string().default(USUAL_COMMAND),
  setup: z.string().default(''),
  options: z.record(z.string(), OptionValue).optional(),
});

export type RequestReading =
  | { readonly kind: 'read'; readonly request: Request }
  | { readonly kind: 'refused'; readonly refusal: Refusal };

/** Reads a line of standard input: a JSON object, or the words one would type. */
export function readRequestLine(line: string): RequestReading {
  if (!line.trimStart().startsWith('{')) return { kind: 'read', request: askedOf(line) };
  const json = parsed(line);
  if (json === undefined) return refusedLine('The line starts like a JSON object but is not one.');
  const result = RequestLine.safeParse(json);
  if (!result.success) return refusedLine(`The request has ${firstFault(result.error)}.`);
  const { command, setup, options } = result.data;
  return { kind: 'read', request: options === undefined ? { command, setup } : { command, setup, options } };
}

function parsed(line: string): unknown {
  try {
    return JSON.parse(line);
  } catch {
    return undefined;
  }
}

function firstFault(error: z.ZodError): string {
  const [issue] = error.issues;
  if (issue?.code === 'unrecognized_keys') return 'a field that is not known here';
  const [field] = issue?.path ?? [];
  return field === 'options' ? 'an option that is neither text nor number' : `a ${String(field)} that is not text`;
}

/** A line that never becomes a request, with what one may be. */
export function refusedLine(message: string): RequestReading {
  return {
    kind: 'refused',
    refusal: {
      field: 'setup',
      message,
      allowed: `one JSON object a line with "command", "setup" and "options", or plain words; at most ${LINE_BYTES / 1024} kB a line`,
      example: '{"command":"convert","setup":"2x10 36/22 11-36","options":{"ring":"32"}}',
    },
  };
}
