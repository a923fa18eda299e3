import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openHouse } from '../support/slack-house.ts';
import { blockSchema } from '../support/slack-schema.ts';
import { buttonOf, namesOf, readable, type Stage, shownAt, windowOf } from '../support/slack-stage.ts';

const BUTTON = 'Post the page here';
const FILE_CALLS = ['files.getUploadURLExternal', 'files.completeUploadExternal'];

let house: Awaited<ReturnType<typeof openHouse>>;
let stage: Stage;
let schema: ReturnType<typeof blockSchema>;
beforeAll(async () => {
  schema = blockSchema();
  house = await openHouse();
  stage = await house.stage();
  await stage.slash('UANN', 'job open 2x10 36/22 11-36 104bcd cranktype=pinch title="<!channel> & co"');
});
afterAll(async () => {
  await house.end();
  expect(stage.platform.faults).toEqual([]);
});

const printed = async (line = 'job print 1') => shownAt(await stage.slash('UANN', line));

/** What the page begins and ends with, as a reader of such files looks for it. */
function endsOf(bytes: Uint8Array | undefined): readonly string[] {
  const text = Buffer.from(bytes ?? []).toString('latin1');
  return [text.slice(0, 5), text.trimEnd().slice(-5)];
}

describe('a page to print', () => {
  it('is offered on a card for the asker alone, and posted by nothing but a press', async () => {
    const { ack, arrived } = await stage.slash('UANN', 'job print 1');
    expect(arrived).toEqual([]);
    expect(ack).toMatchObject({ response_type: 'ephemeral' });
    const card = shownAt({ ack, arrived, windows: [] });
    expect(namesOf(card)).toEqual([BUTTON, 'Show it']);
    expect(schema.faultsOf(card.blocks)).toEqual([]);
    expect(stage.platform.calls.filter(({ method }) => FILE_CALLS.includes(method))).toEqual([]);
  });

  it('is posted where it was asked for, and whoever asked is told', async () => {
    const card = await printed();
    const before = { calls: stage.platform.calls.length, pages: stage.platform.pages.length };
    const { ack, arrived } = await stage.press('UANN', buttonOf(card, BUTTON));
    expect(ack).toBeUndefined();
    const calls = stage.platform.calls.slice(before.calls).filter(({ method }) => method.startsWith('files.'));
    expect(calls.map(({ method }) => method)).toEqual(FILE_CALLS);
    const [page, ...more] = stage.platform.pages.slice(before.pages);
    expect(more).toEqual([]);
    expect(page).toMatchObject({ channel: 'C01SHOP', thread: null });
    expect(endsOf(page?.bytes)).toEqual(['%PDF-', '%%EOF']);
    expect(calls[0]?.args).toEqual({ filename: 'job-1.pdf', length: page?.bytes?.length });
    expect(arrived).toHaveLength(1);
    expect(arrived[0]).toMatchObject({ by: 'address', everybody: false, replaces: false });
    expect(arrived[0]?.message.text).toBe('The page is posted here, as a file to print.');
  });

  it('has the answer of the card above it, in which nobody is called', async () => {
    const card = await printed();
    await stage.press('UANN', buttonOf(card, BUTTON));
    const page = stage.platform.pages.at(-1);
    expect(page?.title).toBe('Job 1: <!channel> & co');
    expect(page?.comment).toBe('Job 1: &lt;!channel&gt; &amp; co: one page to print.');
    expect(page?.comment).toBe(card.text);
  });

  it('stays in the thread it was asked in', async () => {
    const asked = await stage.mention('UANN', 'job print 1', '1764000000.000900');
    expect(asked.arrived[0]).toMatchObject({ by: 'chat.postEphemeral', thread: '1764000000.000900' });
    const on = { thread: '1764000000.000900' };
    const { arrived } = await stage.press('UANN', buttonOf(shownAt(asked), BUTTON), on);
    expect(stage.platform.pages.at(-1)).toMatchObject({ channel: 'C01SHOP', thread: '1764000000.000900' });
    expect(arrived[0]).toMatchObject({ thread: '1764000000.000900', everybody: false });
  });

  it('is of the job as it stands at the press, on the paper that was asked for', async () => {
    const card = await printed('job print 1 paper=letter');
    await stage.press('UANN', buttonOf(card, BUTTON));
    const first = Buffer.from(stage.platform.pages.at(-1)?.bytes ?? []).toString('latin1');
    // Letter is 8.5 by 11 inches of 72 points.
    expect(first).toMatch(/MediaBox \[0 0 612 792\]/);
    await stage.slash('UANN', 'job note 1 new chain advised, declined');
    await stage.press('UANN', buttonOf(card, BUTTON));
    const second = Buffer.from(stage.platform.pages.at(-1)?.bytes ?? []);
    expect(second.length).not.toBe(first.length);
  });

  it('names whoever signed, because paper knows nobody by an id', async () => {
    const signed = await stage.slash('UANN', 'job tick 1 1 value=8.5 wrench=A1 why="printed on the part"');
    expect(readable(shownAt(signed))).toContain('by Ann');
    await stage.press('UANN', buttonOf(await printed(), BUTTON));
    const sheet = stage.printed.at(-1)?.sheet;
    expect(sheet?.torque[0]?.first).toBe('Ann 2026-11-25');
    expect(JSON.stringify(sheet)).not.toContain('UANN');
    expect(sheet?.title).toBe('Job 1: <!channel> & co');
  });

  it('is offered as well where a window told the job', async () => {
    const view = windowOf(await stage.slash('UANN', 'job print'));
    const { arrived } = await stage.submit('UANN', view, { job: '1', paper: 'letter' });
    await stage.press('UANN', buttonOf(arrived[0]?.message ?? { blocks: [] }, BUTTON));
    expect(Buffer.from(stage.platform.pages.at(-1)?.bytes ?? []).toString('latin1')).toContain('0 0 612 792');
  });

  it.each([
    ['not_in_channel', 'invite me to this channel'],
    ['channel_not_found', 'invite me to this channel'],
    ['missing_scope', 'files:write'],
    ['file_uploads_disabled', 'I may not send files here'],
    ['ratelimited', 'Press the button again in a moment'],
  ])('that the platform refuses with %s is explained, with a way to try again', async (error, words) => {
    const card = await printed();
    const before = stage.platform.pages.length;
    stage.platform.refuse('files.completeUploadExternal', error);
    const failed = await stage.press('UANN', buttonOf(card, BUTTON));
    expect(failed.arrived).toHaveLength(1);
    expect(failed.arrived[0]).toMatchObject({ everybody: false });
    expect(readable(shownAt(failed))).toContain(words);
    expect(schema.faultsOf(shownAt(failed).blocks)).toEqual([]);
    expect(stage.platform.pages).toHaveLength(before);
    await stage.press('UANN', buttonOf(shownAt(failed), BUTTON));
    expect(stage.platform.pages).toHaveLength(before + 1);
  });

  it('that may not even be sent is explained the same', async () => {
    const card = await printed();
    stage.platform.refuse('files.getUploadURLExternal', 'missing_scope');
    const failed = await stage.press('UANN', buttonOf(card, BUTTON));
    expect(readable(shownAt(failed))).toContain('I may not send files here');
  });

  it('waits for an invitation to a channel that the program is not in', async () => {
    const card = await printed();
    const before = stage.platform.pages.length;
    stage.platform.channels.delete('C01SHOP');
    const failed = await stage.press('UANN', buttonOf(card, BUTTON));
    expect(readable(shownAt(failed))).toContain('invite me to this channel, then press the button again');
    stage.platform.channels.add('C01SHOP');
    await stage.press('UANN', buttonOf(shownAt(failed), BUTTON));
    expect(stage.platform.pages).toHaveLength(before + 1);
  });

  it('of a job that is not there is refused with the words of the card', async () => {
    const card = await printed();
    const { value, ...button } = buttonOf(card, BUTTON);
    const before = stage.platform.pages.length;
    const gone = await stage.press('UANN', { ...button, value: value.replace('print%201', 'print%2099') });
    expect(readable(shownAt(gone))).toMatch(/99/);
    expect(gone.arrived[0]).toMatchObject({ everybody: false });
    expect(stage.platform.pages).toHaveLength(before);
  });
});
