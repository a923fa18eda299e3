import type { Person, Place } from '../../src/records/place.ts';
import {
  changedSettings,
  DEFAULT_SETTINGS,
  type Settings,
  type SettingsKept,
  settingsRefused,
} from '../../src/records/settings.ts';
import { keyOf } from './people.ts';
import type { Scope } from './scope.ts';
import { statement } from './statements.ts';
import type { PlaceStore } from './store.ts';

/** People are kept by their keys, in a table of their own; the rest of the settings names nobody. */
type Content = Omit<Settings, 'pinPeople'>;

export function settingsIn(store: PlaceStore): SettingsKept {
  return {
    read: (place) => store.read(place, ({ scope }) => settingsOf(scope)),

    change: (who, change, atMs) =>
      store.change(who.place, async ({ scope }) => {
        const changed_by = await keyOf(scope, who, atMs);
        // Held from the start, so that two changes at once come one after the other and neither is lost.
        await scope
          .insertInto('settings')
          .values({ content: JSON.stringify(unnamed(DEFAULT_SETTINGS)), changed_by, changed_at: atMs })
          .onConflict((conflict) =>
            conflict.column('place').doUpdateSet((eb) => ({ content: eb.ref('settings.content') })),
          )
          .execute();
        const before = await settingsOf(scope);
        const settings = changedSettings(before, change);
        const refused = settingsRefused(settings);
        if (refused !== null) return refused;
        await scope
          .updateTable('settings')
          .set({ content: JSON.stringify(unnamed(settings)) })
          .execute();
        const naming = change.pinPeople !== undefined || change.edits?.pinPeople !== undefined;
        if (naming) await nameAgain(scope, who.place, settings.pinPeople, atMs);
        return { kind: 'changed', settings, before };
      }),
  };
}

const content = statement<Record<never, never>, { content: string }>([], (scope) =>
  scope.selectFrom('settings').select('content'),
);

/** The settings of a place; what it never set is as by default. */
export async function settingsOf(scope: Scope): Promise<Settings> {
  const [row] = await content(scope, {});
  if (row === undefined) return DEFAULT_SETTINGS;
  const people = await scope
    .selectFrom('setting_people')
    .innerJoin('people', 'people.key', 'setting_people.key')
    .select('people.person')
    .orderBy('people.person')
    .execute();
  const pinPeople = people.map(({ person }) => person as Person);
  return { ...DEFAULT_SETTINGS, ...(JSON.parse(row.content) as Content), pinPeople };
}

function unnamed({ pinPeople: _, ...rest }: Settings): Content {
  return rest;
}

async function nameAgain(scope: Scope, place: Place, people: readonly Person[], atMs: number): Promise<void> {
  await scope.deleteFrom('setting_people').execute();
  for (const person of new Set(people)) {
    await scope
      .insertInto('setting_people')
      .values({ key: await keyOf(scope, { place, person }, atMs) })
      .execute();
  }
}
