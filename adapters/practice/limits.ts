import { LIMITS as KEPT } from '../../src/records/limits.ts';

/** Limits of the practice room; all are our own (common practice for one person at one machine). */
export const LIMITS = {
  /** The longest line the desk answers is far shorter; a longer one is refused in words before it is read. */
  bodyBytes: 64 * 1024,
  /** A line that is completed while it is typed: twice the longest setup there is, so that the command fits as well. */
  completedLine: 2 * KEPT.setup,
  /** A command's or a field's name; the longest there is has a third of it. */
  name: 40,
  /** The id of an answer: a letter and a count. */
  id: 20,
  /** Answers whose buttons, pictures and payloads still work; the oldest is forgotten first. */
  remembered: 200,
  /** Suggestions at once: what a small screen shows beside a keyboard. */
  suggestions: 8,
  /** Twenty questions at once and two a second after that: nobody reads faster. */
  pace: { burst: 20, everyMs: 500 },
  /** How many ports are tried after the one that is wanted. */
  portsTried: 20,
} as const;
