import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { SHORTCUTS } from '../../adapters/slack/standard-answers.ts';
import { openHouse } from '../support/slack-house.ts';
import { stamp } from '../support/slack-payloads.ts';
import { buttonOf, readable, type Scene, type Stage, shownAt, windowOf } from '../support/slack-stage.ts';

let house: Awaited<ReturnType<typeof openHouse>>;
beforeAll(async () => {
  house = await openHouse();
});
afterAll(() => house.end());

const PIN = 'answer pin hills text="Take the 30."';
const CHANGE = 'settings change units=imperial';
const NOT_KNOWN = 'Just now nobody can be asked who runs this place or moderates it. Nothing was changed';

const words = (scene: Scene) => readable(shownAt(scene));

async function withGroup(): Promise<Stage> {
  const stage = await house.stage();
  stage.platform.groups.set('S01MODS', { handle: 'mods', users: ['UANN'] });
  await stage.slash('UBOSS', 'settings change pinroles=+<!subteam^S01MODS|@mods>');
  return stage;
}

describe('while the platform does not say who somebody is', () => {
  it.each([
    ['fails', 'fatal_error'],
    ['lacks the scope', 'missing_scope'],
    ['is asked too often', 'ratelimited'],
    ['cannot be reached', 'unreachable'],
  ])('because it %s, whoever runs the place is told that it is not known, and nothing is changed', async (_, error) => {
    const stage = await house.stage();
    for (const line of [CHANGE, 'settings show', PIN]) {
      stage.platform.refuse('users.info', error);
      const said = words(await stage.slash('UBOSS', line));
      expect(said).toContain(NOT_KNOWN);
      expect(said).not.toMatch(/for the moderators|by those who run/);
    }
    // What failed is not believed: the next question asks again.
    expect(words(await stage.slash('UBOSS', 'settings show'))).toContain('Units first: metric');
    expect(words(await stage.slash('UBOSS', PIN))).toContain('hills');
  });

  it('the same is said where it takes too long', async () => {
    const stage = await house.stage();
    stage.beSilent(true);
    expect(words(await stage.slash('UBOSS', CHANGE))).toContain(NOT_KNOWN);
    stage.beSilent(false);
    expect(words(await stage.slash('UBOSS', CHANGE))).toContain('Units first: imperial');
  });

  it('a window stays open with what was typed in it', async () => {
    const stage = await house.stage();
    const view = windowOf(await stage.shortcut('UBOSS', SHORTCUTS.pin, { ts: stamp(), text: 'words' }));
    stage.pass(10 * 60_000);
    stage.platform.refuse('users.info', 'fatal_error');
    const { ack } = await stage.submit('UBOSS', view, { topic: 'words', text: 'words' });
    expect(ack).toMatchObject({ response_action: 'errors' });
    expect(JSON.stringify(ack)).toContain(NOT_KNOWN);
  });

  it('neither the shortcut nor a button pins, and both say why', async () => {
    const stage = await house.stage();
    const message = { ts: '1764000000.000100', text: 'words' };
    const view = windowOf(await stage.shortcut('UBOSS', SHORTCUTS.pin, message));
    const kept = shownAt(await stage.submit('UBOSS', view, { topic: 'words', text: 'words' }));
    stage.pass(10 * 60_000);
    stage.platform.refuse('users.info', 'fatal_error', 'fatal_error');
    const again = await stage.shortcut('UBOSS', SHORTCUTS.pin, message);
    expect([again.windows, words(again)]).toEqual([[], expect.stringContaining(NOT_KNOWN)]);
    expect(words(await stage.press('UBOSS', buttonOf(kept, 'Pin that message here')))).toContain(NOT_KNOWN);
    expect(stage.platform.pins).toEqual([]);
  });

  it('whom the settings name may pin all the same', async () => {
    const stage = await house.stage();
    await stage.slash('UBOSS', 'settings change pinpeople=+<@UANN|ann>');
    stage.platform.refuse('users.info', 'fatal_error');
    expect(words(await stage.slash('UANN', PIN))).toContain('hills');
  });
});

describe('while the platform does not say who is in a group', () => {
  it('its members are told that it is not known; who runs the place is known all the same', async () => {
    const stage = await withGroup();
    stage.platform.refuse('usergroups.users.list', 'fatal_error', 'fatal_error');
    expect(words(await stage.slash('UANN', PIN))).toContain(NOT_KNOWN);
    // Who runs the place is known, and a group does not change it.
    expect(words(await stage.slash('UANN', CHANGE))).toContain('by those who run this place');
    expect(words(await stage.slash('UANN', PIN))).toContain('hills');
  });

  it('whoever runs the place may all they may at other times', async () => {
    const stage = await withGroup();
    stage.platform.refuse('usergroups.users.list', 'fatal_error');
    expect(words(await stage.slash('UBOSS', PIN))).toContain('hills');
  });
});

describe('where the platform says that there is no such thing', () => {
  it.each([
    ['no_such_subteam', 'a group that is gone'],
    ['plan_upgrade_required', 'a group in a workspace without groups'],
  ])('%s, %s has nobody in it', async (error) => {
    const stage = await withGroup();
    stage.platform.refuse('usergroups.users.list', error);
    expect(words(await stage.slash('UANN', PIN))).toContain('for the moderators');
  });

  it('somebody unknown has no rights', async () => {
    const stage = await house.stage();
    expect(words(await stage.slash('UUNKNOWN', PIN))).toContain('for the moderators');
    expect(words(await stage.slash('UUNKNOWN', CHANGE))).toContain('by those who run this place');
  });
});
