import type { JobSheet } from '../../src/card/job-sheet.ts';
import { answered, asked, nowhere, type Talk } from './answer.ts';
import { escaped, type Names, named, shown } from './escape.ts';
import type { Outcome, Ports } from './ports.ts';
import type { Press } from './press.ts';
import { done, said } from './questions.ts';
import { sentence } from './render.ts';
import { type Sent, sendFile } from './upload.ts';
import { FILE_ERRORS, NO_PAGE, WORDS } from './words.ts';

/**
 * Posts a page to print where the button stands. What is on it is looked up at the press, so that the page is as the job
 * stands now; where there is none any more, the card that says so is for whoever pressed.
 */
export async function pageOutcome(
  press: Extract<Press, { readonly kind: 'post-page' }>,
  talk: Talk,
  ports: Ports,
): Promise<Outcome> {
  const { scene, web } = talk;
  const { channel, thread, team } = scene;
  const { printPage, people } = ports;
  const { command, setup } = press;
  const reply = await asked({ command, setup }, talk, ports);
  if (reply === null || channel === null || web === null) return done(nowhere());
  if (reply.kind !== 'kept' || reply.print === undefined || printPage === null) {
    return done(await answered(reply, { command, setup }, talk, ports, { where: 'private' }));
  }
  const { print, card } = reply;
  const names = await people.names(JSON.stringify({ card, print }), team, web);
  const about = { filename: print.name, title: shown(print.sheet.title, names) };
  const spot = { channel, thread, comment: escaped(card.answer, names) };
  const sent = await sendFile(await printPage({ ...print, sheet: withNames(print.sheet, names) }), about, spot, web);
  if (sent.kind === 'sent') return said(WORDS.pagePosted);
  return done({ where: 'private', posts: [sentence(reason(sent), [{ label: 'Post the page here', press }])] });
}

/** Paper knows nobody by an id: whoever signed stands on it by name. */
function withNames(sheet: JobSheet, names: Names): JobSheet {
  const nameAt = (_: string, value: unknown) => (typeof value === 'string' ? named(value, names) : value);
  return JSON.parse(JSON.stringify(sheet), nameAt) as JobSheet;
}

function reason({ error }: Extract<Sent, { readonly kind: 'failed' }>): string {
  return NO_PAGE[FILE_ERRORS[error] ?? 'other'];
}
