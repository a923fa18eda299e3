import type { Sources } from './sources.ts';

/** Whether a program should be sent questions, and how each of its parts is. */
export type Readiness = {
  readonly ready: boolean;
  readonly ending: boolean;
  readonly platform: 'starting' | 'up' | 'down';
  readonly tables: 'right' | 'waiting' | 'unknown';
  readonly storage: 'here' | 'away';
  readonly answers: 'everything' | 'what is told in the question';
};

/**
 * A program is ready when the platform can be heard and its tables are right, and no longer once its end has begun.
 * Storage that is away does not change that: a question about a bike told in the line is answered all the same, and
 * sending it elsewhere would find the same storage.
 */
export function readinessOf({ isUp, tables }: Sources, isEnding: boolean): Readiness {
  const platform = isUp === undefined ? 'starting' : isUp() ? 'up' : 'down';
  const found = tables?.() ?? 'away';
  return {
    ready: platform === 'up' && found !== 'waiting' && !isEnding,
    ending: isEnding,
    platform,
    tables: found === 'away' ? 'unknown' : found,
    storage: found === 'away' ? 'away' : 'here',
    answers: found === 'right' ? 'everything' : 'what is told in the question',
  };
}
