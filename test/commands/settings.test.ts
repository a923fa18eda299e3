import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { DEFAULT_SETTINGS, MOST_DAYS } from '../../src/records/settings.ts';
import { type Storage, sqlite } from '../support/storages.ts';
import { openWorkshop, type Workshop } from '../support/workshop.ts';

let storage: Storage;
let shop: Workshop;

beforeAll(async () => {
  storage = await sqlite();
});
afterAll(() => storage.end());
beforeEach(async () => {
  shop = await openWorkshop(storage);
  return () => shop.records.close();
});

const kept = () => shop.records.settings.read(shop.at);

describe('settings', () => {
  it('are changed by those who run the place; others are told whom to ask', async () => {
    expect(await shop.refused('anna', 'settings change units=imperial')).toContain('ask somebody who runs the place');
    expect(await kept()).toEqual(DEFAULT_SETTINGS);
    await shop.done('boss', 'settings change pinpeople=anna');
    expect(await shop.refused('anna', 'settings change units=imperial')).toContain('ask somebody who runs the place');
  });

  it('are shown to moderators', async () => {
    expect((await shop.say('anna', 'settings show')).kind).toBe('refused');
    await shop.done('boss', 'settings change pinpeople=anna');
    expect(await shop.done('anna', 'settings show')).toContain('People who may pin: anna');
  });

  it('change only what is named', async () => {
    await shop.done('boss', 'settings change decimals=comma approvals=yes');
    await shop.done('boss', 'settings change units=imperial');
    expect(await kept()).toEqual({ ...DEFAULT_SETTINGS, decimals: 'comma', approvals: true, units: 'imperial' });
    await shop.done('boss', 'settings change approvals=NO decimals=Point units=metric');
    expect(await kept()).toEqual(DEFAULT_SETTINGS);
  });

  it('add names to those who may pin and take them away', async () => {
    await shop.done('boss', 'settings change pinroles="+Mods, Trail Guides" pinpeople=anna,ben');
    expect(await kept()).toMatchObject({ pinRoles: ['Mods', 'Trail Guides'], pinPeople: ['anna', 'ben'] });
    const words = await shop.done('boss', 'settings change pinroles=-Mods,+Helpers,-Nobody pinpeople=-anna,ben');
    expect(await kept()).toMatchObject({ pinRoles: ['Trail Guides', 'Helpers'], pinPeople: ['ben'] });
    expect(words).toContain('Not among the roles that may pin: Nobody.');
    expect(words).toContain('Among the people who may pin already: ben.');
  });

  it('keep things for days or without an end, and say what goes sooner', async () => {
    const words = await shop.done('boss', 'settings change receiptdays=30 jobdays=1');
    expect(words).toContain('Receipts older than 30 days go at the next sweep.');
    expect(words).toContain('Jobs closed more than 1 day ago go at the next sweep');
    expect(await kept()).toMatchObject({ receiptDays: 30, jobDays: 1 });
    expect(await shop.done('boss', `settings change receiptdays=${MOST_DAYS}`)).not.toContain('next sweep');
    expect(await shop.done('boss', 'settings change receiptdays=keep jobdays=KEEP')).toContain('no end');
    expect(await kept()).toMatchObject({ receiptDays: null, jobDays: null });
  });

  it.each([
    ['settings change', 'settings: It is not said what to change.'],
    ['settings change receiptdays=0', 'receiptdays: "0" is no number of days'],
    [`settings change jobdays=${MOST_DAYS + 1}`, `a whole number from 1 to ${MOST_DAYS}`],
    ['settings change jobdays=30.5', 'jobdays: "30.5"'],
    ['settings change units=furlongs', 'metric, imperial'],
    ['settings change approvals=perhaps', 'yes or no'],
    ['settings change pinroles=Mods,,', 'pinroles: "Mods,," can be no name'],
    ['settings change pinpeople="an na"', 'pinpeople: "an na" can be no name'],
    [`settings change pinroles=${'r'.repeat(101)}`, '101, with 100 allowed'],
  ])('%s is refused, and nothing changes', async (line, words) => {
    expect(await shop.refused('boss', line)).toContain(words);
    expect(await kept()).toEqual(DEFAULT_SETTINGS);
  });
});
