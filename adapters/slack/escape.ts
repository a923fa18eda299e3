import { inert, shortened } from '../../src/inert.ts';
import type { PlainText } from './wire.ts';

/**
 * Names of people and groups by the way the records hold them, such as "<@U1>": they are shown as text, because a mention
 * would call somebody.
 */
export type Names = ReadonlyMap<string, string>;

export const NO_NAMES: Names = new Map();

/** Somebody, or a group, as this platform writes them. */
const MENTION = /<(?:@[UW][A-Z0-9]{1,30}|!subteam\^S[A-Z0-9]{1,30})>/g;

/** The people and groups that a text names. */
export function mentionsIn(text: string): readonly string[] {
  return [...new Set(text.match(MENTION) ?? [])];
}

/** Text for where nothing is read as markup: nobody is mentioned in it, and nothing reorders or hides it. */
export function shown(text: string, names: Names): string {
  return inert(named(text, names));
}

/** Text with people and groups by their names, for where it is made harmless later. */
export function named(text: string, names: Names): string {
  return text.includes('<') ? text.replace(MENTION, (each) => names.get(each) ?? bareId(each)) : text;
}

/** Somebody who could not be looked up just now. */
function bareId(mention: string): string {
  return mention.replace(/^<(?:@|!subteam\^)|>$/g, '');
}

/** Text for where markup is read: the three characters that begin any of it are written as the platform asks. */
export function escaped(text: string, names: Names = NO_NAMES): string {
  return shown(text, names).replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
}

/** A text object that is not read as markup, nor for emoji. */
export function plain(text: string, names: Names = NO_NAMES): PlainText {
  return { type: 'plain_text', text: shown(text, names), emoji: false };
}

/** A label of at most `most` characters; a longer one says with an ellipsis that it goes on. */
export function label(text: string, most: number, names: Names = NO_NAMES): PlainText {
  return { type: 'plain_text', text: shortened(shown(text, names), most), emoji: false };
}

/** Somebody by a nickname is the same person, and a channel, an address or an escaped character is what was typed. */
export function asTyped(text: string): string {
  return text
    .replace(/<(@[UW][A-Z0-9]+|!subteam\^S[A-Z0-9]+)\|[^<>]*>/g, '<$1>')
    .replace(/<#[CG][A-Z0-9]+\|([^<>]*)>/g, '#$1')
    .replace(/<(?:https?|mailto):[^<>|]*\|([^<>]*)>/g, '$1')
    .replace(/<((?:https?|mailto):[^<>|]*)>/g, '$1')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&amp;', '&');
}
