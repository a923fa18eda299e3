import type { KeptCommand } from './kept.ts';
import { approve, decline, drafts } from './standard-answer-drafts.ts';
import { history, restore, unpin } from './standard-answer-history.ts';
import { edit, pin } from './standard-answer-pin.ts';
import { find, list, show } from './standard-answer-show.ts';
import { stale } from './standard-answer-stale.ts';

/** What a place answers the same way every time, in the words of its moderators. */
export const answer: KeptCommand = {
  name: 'answer',
  summary: 'Standard answers of this place: show, find, pin, and keep them true',
  actions: [show, find, list, pin, edit, history, restore, unpin, drafts, approve, decline, stale],
};
