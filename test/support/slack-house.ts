import type { Way } from '../../adapters/slack/shots.ts';
import { openRecords } from '../../adapters/storage/open.ts';
import { openStage, type Stage } from './slack-stage.ts';
import { sqlite } from './storages.ts';

/** A stage of its own over records of its own, for each test that asks for one. */
export async function openHouse(): Promise<{
  readonly stage: (way?: Way) => Promise<Stage>;
  readonly end: () => Promise<void>;
}> {
  const storage = await sqlite();
  const opened: { close: () => Promise<void> }[] = [];
  return {
    stage: async (way) => {
      const records = await openRecords(await storage.fresh());
      opened.push(records);
      const stage = openStage(records, way);
      stage.platform.users.set('UBOSS', { is_admin: true, profile: { display_name: 'Boss' } });
      stage.platform.users.set('UANN', { profile: { display_name: 'Ann' } });
      stage.platform.users.set('UBOB', { profile: { display_name: 'Bob' } });
      return stage;
    },
    end: async () => {
      await Promise.all(opened.map(({ close }) => close()));
      await storage.end();
    },
  };
}
