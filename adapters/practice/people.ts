import type { Visitor } from '../../src/commands/kept.ts';
import type { Person, Place } from '../../src/records/place.ts';
import type { Records } from '../../src/records/records.ts';
import { StorageAway } from '../../src/records/storage-away.ts';

/** The people one can be in the practice room, and what each is there for. */
export const ROLES = [
  { name: 'member', label: 'Member', may: 'Asks, and keeps bikes and answers of their own.' },
  { name: 'mechanic', label: 'Mechanic', may: 'Opens jobs and signs their rows.' },
  { name: 'second-mechanic', label: 'Second mechanic', may: 'Makes the second check on a row.' },
  { name: 'moderator', label: 'Moderator', may: 'Runs the place and pins standard answers.' },
  { name: 'second-moderator', label: 'Second moderator', may: 'Approves what the first one pinned.' },
] as const;

export type RoleName = (typeof ROLES)[number]['name'];

export const ROLE_NAMES = ROLES.map(({ name }) => name);

const PLACE = 'practice' as Place;

/** Names of our own, which are known to be fit to be people. */
const personOf = (role: RoleName) => role as string as Person;

export function visitorOf(role: RoleName): Visitor {
  return { who: { place: PLACE, person: personOf(role) }, roles: [], runsPlace: role === 'moderator' };
}

/**
 * Two moderators, and a second approval: so that both can be tried. What somebody changed since then is left alone, and
 * what has been kept for long enough goes.
 */
export async function furnish(records: Records, nowMs: number): Promise<void> {
  try {
    await records.privacy.sweep(nowMs);
    const { pinPeople } = await records.settings.read(PLACE);
    if (pinPeople.length > 0) return;
    const moderators = [personOf('moderator'), personOf('second-moderator')];
    await records.settings.change(visitorOf('moderator').who, { pinPeople: moderators, approvals: true }, nowMs);
  } catch (error) {
    if (!(error instanceof StorageAway)) throw error;
  }
}
