/**
 * Who would be called by a payload, and what would become a link, as the platforms read them by their own
 * documentation: the markup that a backslash or an entity has not made harmless.
 */

/** Discord: "Message Formatting", the table of formats; everybody and those present by name; masked links. */
const DISCORD_LIVE =
  /@everyone|@here|<@[!&]?\d+>|<#\d+>|<\/[^<>]*:\d+>|<a?:\w+:\d+>|<t:-?\d+(?::\w)?>|<id:\w+>|\]\([^)\s]+\)|https?:\/\//gi;
/** A backslash before a sign takes its meaning away; a letter keeps it. */
const DISCORD_ESCAPED = /\\[^0-9A-Za-z\s]/g;

/** What in a text of a message is live there. */
export function liveInDiscord(text: string): readonly string[] {
  return text.replaceAll(DISCORD_ESCAPED, '\u0000').match(DISCORD_LIVE) ?? [];
}

type Json = Readonly<Record<string, unknown>>;

/** Slack: "Formatting text": the three signs that begin anything are only ever there as entities. */
const SLACK_RAW = /[<>]|&(?!(?:amp|lt|gt);)/g;

/** Slack: "Rich text block": elements of a text that call somebody or lead somewhere. */
const SLACK_LIVE: readonly string[] = ['user', 'usergroup', 'broadcast', 'channel', 'team', 'link', 'date', 'emoji'];

/** What in a payload, however deep, is live there. The text of a message is read as markup; that of a block only if it says so. */
export function liveInSlack(payload: unknown, isMessage = true): readonly string[] {
  if (Array.isArray(payload)) return payload.flatMap((each) => liveInSlack(each, false));
  if (typeof payload !== 'object' || payload === null) return [];
  const { type, text, parse, link_names } = payload as Json;
  const found = Object.values(payload).flatMap((each) => liveInSlack(each, false));
  if (typeof text === 'string' && (type === 'mrkdwn' || (isMessage && type === undefined))) {
    found.push(...(text.match(SLACK_RAW) ?? []));
  }
  if (SLACK_LIVE.includes(String(type))) found.push(String(type));
  if (type === 'markdown' || type === 'mrkdwn') found.push(String(type));
  if (parse !== undefined || link_names !== undefined) found.push('a message that looks for names');
  return found;
}
