import { describe, expect, it } from 'vitest';
import { ownRecords } from '../support/own-records.ts';
import { TEAM } from '../support/slack-payloads.ts';
import { openStage } from '../support/slack-stage.ts';
import { openChance } from './chance.ts';
import { settings } from './deeds.ts';
import { lineOf } from './slack-fronts.ts';

const records = ownRecords();

describe('a change of settings', () => {
  it('is not known as kept by its refusal, where the platform does not say who runs the place', async () => {
    const stage = openStage(records());
    stage.platform.users.set('UBOSS', { is_admin: true, team_id: TEAM });
    const script = settings(`slack:${TEAM}`, openChance(1));
    const deeds = [script.next(), script.next({ kept: false, shown: '' })].flatMap(({ value }) => value?.deed ?? []);
    stage.platform.refuse('users.info', 'internal_error');
    const told: boolean[] = [];
    for (const deed of deeds) told.push(deed.isKept(JSON.stringify((await stage.slash('UBOSS', lineOf(deed))).ack)));
    expect(told).toEqual([false, true]);
  });
});
