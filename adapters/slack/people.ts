import { z } from 'zod';
import { RIGHTS } from '../../src/card/kept.ts';
import type { Visitor } from '../../src/commands/kept.ts';
import { KEPT_COMMANDS } from '../../src/commands/kept-list.ts';
import { type Timer, within } from '../../src/patience.ts';
import type { Place } from '../../src/records/place.ts';
import type { Records } from '../../src/records/records.ts';
import { StorageAway } from '../../src/records/storage-away.ts';
import type { Request } from '../../src/request.ts';
import { mentionsIn, type Names } from './escape.ts';
import { OURS } from './limits.ts';
import type { Web } from './ports.ts';
import type { Scene } from './read.ts';

/** Who somebody is, as far as the platform says so. */
type Someone = { readonly name: string; readonly runsPlace: boolean };

/** A visitor with the rights the platform gives them, and with none of those it could not be asked for in time. */
export type Met = {
  readonly visitor: Visitor;
  /** Those rights: whoever is refused for want of one is told that it is not known, not that they lack it. */
  readonly unknown: readonly Right[];
};

type Right = (typeof RIGHTS)[keyof typeof RIGHTS];

/** What is asked about people and groups; an answer is believed for a few minutes, and a failure is not kept at all. */
export type People = {
  /** Who asks; null where the platform does not say who and where. */
  readonly meet: (scene: Scene, request: Request, web: Web | null, records: Records) => Promise<Met | null>;
  /** The names of the people and groups that a text mentions, as far as they can be had in time. */
  readonly names: (text: string, team: string, web: Web | null) => Promise<Names>;
};

const UserInfo = z.object({
  user: z.object({
    id: z.string(),
    team_id: z.string().optional(),
    name: z.string().optional(),
    real_name: z.string().optional(),
    deleted: z.boolean().default(false),
    is_admin: z.boolean().default(false),
    is_owner: z.boolean().default(false),
    is_primary_owner: z.boolean().default(false),
    profile: z.object({ display_name: z.string().optional(), real_name: z.string().optional() }).optional(),
    enterprise_user: z.object({ teams: z.array(z.string()).optional() }).optional(),
  }),
});
const GroupMembers = z.object({ users: z.array(z.string()) });
const Groups = z.object({ usergroups: z.array(z.object({ id: z.string(), handle: z.string() })) });

/**
 * That there is no such person or group, nor groups at all ("users.info", "usergroups.users.list", Errors): an answer as
 * good as any.
 */
const NONE: readonly string[] = ['user_not_found', 'user_not_visible', 'no_such_subteam', 'plan_upgrade_required'];

/** How long a name is waited for: it only makes a card nicer to read. */
const NAME_MS = 800;
/** How long rights are waited for: without them the answer is a refusal. */
const RIGHTS_MS = 1500;
const MOST_NAMES = 30;

export function openPeople(nowMs: () => number, timer: Timer): People {
  const someone = believed<Someone>(nowMs);
  const members = believed<ReadonlySet<string>>(nowMs);
  const handles = believed<ReadonlyMap<string, string>>(nowMs);

  const about = (web: Web, team: string, user: string) =>
    someone(`${team} ${user}`, async () => {
      const reply = await web.call('users.info', { user });
      if (!reply.ok && NONE.includes(reply.error)) return { name: user, runsPlace: false };
      const found = reply.ok ? UserInfo.safeParse(reply.data).data?.user : undefined;
      if (found === undefined || found.id !== user) return null;
      const names = [found.profile?.display_name, found.profile?.real_name, found.real_name, found.name];
      // An admin of another workspace, here through a shared channel, runs theirs and not this one.
      const ours = found.team_id === team || (found.enterprise_user?.teams ?? []).includes(team);
      const runs = found.is_admin || found.is_owner || found.is_primary_owner;
      return { name: names.find((each) => each) ?? user, runsPlace: runs && ours && !found.deleted };
    });

  const membersOf = (web: Web, team: string, group: string) =>
    members(`${team} ${group}`, async () => {
      const reply = await web.call('usergroups.users.list', { usergroup: group });
      if (!reply.ok && NONE.includes(reply.error)) return new Set();
      const found = reply.ok ? GroupMembers.safeParse(reply.data).data : undefined;
      return found === undefined ? null : new Set(found.users);
    });

  const handlesOf = (web: Web, team: string) =>
    handles(team, async () => {
      const reply = await web.call('usergroups.list', {});
      const found = reply.ok ? Groups.safeParse(reply.data).data : undefined;
      return found === undefined ? null : new Map(found.usergroups.map(({ id, handle }) => [id, handle]));
    });

  return {
    meet: async ({ who, team, user }, request, web, records) => {
      if (who === null) return null;
      const nobody = { who, roles: [], runsPlace: false };
      if (!asksForRights(request)) return { visitor: nobody, unknown: [] };
      const groups = web === null ? null : await groupsThatPin(who.place, records);
      if (web === null || groups === null) return { visitor: nobody, unknown: Object.values(RIGHTS) };
      const [self, ...inGroups] = await Promise.all([
        within(about(web, team, user), RIGHTS_MS, timer),
        ...groups.map(async ({ role, id }) => {
          const found = await within(membersOf(web, team, id), RIGHTS_MS, timer);
          return { role, isIn: found?.has(user) ?? null };
        }),
      ]);
      const roles = inGroups.filter(({ isIn }) => isIn).map(({ role }) => role);
      const visitor = { who, roles, runsPlace: self?.runsPlace ?? false };
      if (self === null) return { visitor, unknown: Object.values(RIGHTS) };
      return { visitor, unknown: inGroups.some(({ isIn }) => isIn === null) ? [RIGHTS.moderates] : [] };
    },

    names: async (text, team, web) => {
      const mentions = mentionsIn(text).slice(0, MOST_NAMES);
      if (web === null || mentions.length === 0) return new Map();
      const told = await Promise.all(
        mentions.map(async (mention) => {
          const group = groupIn(mention);
          const name =
            group === null
              ? (await within(about(web, team, mention.slice(2, -1)), NAME_MS, timer))?.name
              : (await within(handlesOf(web, team), NAME_MS, timer))?.get(group);
          return name === undefined ? [] : [[mention, name] as const];
        }),
      );
      return new Map(told.flat());
    },
  };
}

/** The id of a group as the platform writes one; null for anything else. */
function groupIn(mention: string): string | null {
  return /^<!subteam\^(S[A-Z0-9]+)>$/.exec(mention)?.[1] ?? null;
}

/** The groups whose members may pin; null while the settings cannot be read. */
async function groupsThatPin(place: Place, records: Records) {
  try {
    return (await records.settings.read(place)).pinRoles.flatMap((role) => {
      const id = groupIn(role);
      return id === null ? [] : [{ role, id }];
    });
  } catch (error) {
    if (!(error instanceof StorageAway)) throw error;
    return null;
  }
}

/** Only what moderators may do needs to know who somebody is; everything else is answered without asking. */
function asksForRights({ command, setup, options }: Request): boolean {
  const kept = KEPT_COMMANDS.find(({ name }) => name === command);
  if (kept === undefined) return command === 'help';
  if (!kept.actions.some(({ moderators }) => moderators)) return false;
  const [first = ''] = setup.trim().split(/\s/, 1);
  const action = kept.actions.find(({ name }) => name === (options?.action ?? first).toLowerCase());
  return action === undefined || action.moderators || !action.public;
}

/** Asks once, believes the answer for a few minutes, and then forgets it; where there are too many, the oldest first. */
function believed<Value>(
  nowMs: () => number,
): (key: string, ask: () => Promise<Value | null>) => Promise<Value | null> {
  const known = new Map<string, { readonly value: Promise<Value | null>; readonly untilMs: number }>();
  return (key, ask) => {
    const atMs = nowMs();
    for (const [oldest, { untilMs }] of known) {
      if (untilMs > atMs && known.size <= OURS.known) break;
      known.delete(oldest);
    }
    const found = known.get(key);
    if (found !== undefined) return found.value;
    const entry = { value: ask().catch(() => null), untilMs: atMs + OURS.believedMs };
    known.set(key, entry);
    void entry.value.then((value) => {
      if (value === null && known.get(key) === entry) known.delete(key);
    });
    return entry.value;
  };
}
