/**
 * What became of a payload by the time of its first answer: it was answered, or announced and answered afterwards; or it
 * came a second time, came too fast, or failed. One that fails after its first answer counts as `failed` as well.
 */
export type Outcome = 'answered' | 'deferred' | 'repeated' | 'paced' | 'failed';

/** Something worth counting. All of it is from closed lists of ours or the platform's, nothing from a person. */
export type Happening =
  | { readonly kind: 'payload'; readonly of: string; readonly outcome: Outcome }
  /** The platform refused something, or could not be reached; by its code or the status of its response. */
  | { readonly kind: 'fault'; readonly code: string };

/** Where happenings go. Nobody is told where nobody watches, and then nothing is counted. */
export type Notice = (happening: Happening) => void;
