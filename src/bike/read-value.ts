import type { Value } from './fields.ts';
import type { Question, Refusal } from './reading.ts';

/** What a text says as the value of one key. */
export type ReadValue =
  | { readonly kind: 'value'; readonly value: Value }
  | { readonly kind: 'open'; readonly question: Question }
  | { readonly kind: 'refused'; readonly refusal: Refusal };
