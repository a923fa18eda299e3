import type { Over } from './limits.ts';
import { longest, overLimit } from './limits.ts';
import type { Person, Place, Who } from './place.ts';

/** How a place wants things. */
export type Settings = {
  readonly units: 'metric' | 'imperial';
  /** How the place writes 32.5. */
  readonly decimals: 'point' | 'comma';
  /** Roles, as the platform names them, whose members may pin standard answers. */
  readonly pinRoles: readonly string[];
  readonly pinPeople: readonly Person[];
  /** Whether a second person must approve a standard answer. */
  readonly approvals: boolean;
  /** Days a receipt is kept; null keeps it until its owner deletes it. */
  readonly receiptDays: number | null;
  /** Days a closed job is kept after closing; null keeps it: a sign-off may be needed long after. */
  readonly jobDays: number | null;
};

/** What holds until a place says otherwise (common practice). Nobody may pin until somebody is named. */
export const DEFAULT_SETTINGS: Settings = {
  units: 'metric',
  decimals: 'point',
  pinRoles: [],
  pinPeople: [],
  approvals: false,
  receiptDays: 365,
  jobDays: null,
};

/** Ten years and a day or two; longer than that is a typing mistake, and null says "keep". */
export const MOST_DAYS = 3653;

export type SettingsRefused =
  | Over
  | { readonly kind: 'days'; readonly field: 'receiptDays' | 'jobDays'; readonly low: 1; readonly high: number };

/** What is wrong with settings, or null. */
export function settingsRefused(settings: Settings): SettingsRefused | null {
  for (const field of ['receiptDays', 'jobDays'] as const) {
    const days = settings[field];
    if (days !== null && !(Number.isInteger(days) && days >= 1 && days <= MOST_DAYS)) {
      return { kind: 'days', field, low: 1, high: MOST_DAYS };
    }
  }
  return overLimit({
    pinners: settings.pinRoles.length + settings.pinPeople.length,
    role: longest(settings.pinRoles),
  });
}

/** Whether somebody may pin, edit, restore, unpin and approve standard answers. */
export function mayPin(settings: Settings, person: Person, roles: readonly string[]): boolean {
  return settings.pinPeople.includes(person) || roles.some((role) => settings.pinRoles.includes(role));
}

/** A name that a list gains or loses. */
export type NameEdit<Name extends string = string> = { readonly kind: 'add' | 'take'; readonly name: Name };

/** What is to be otherwise. Lists are set whole, or edited: an edit leaves standing what others do to the list. */
export type SettingsChange = Partial<Settings> & {
  readonly edits?: {
    readonly pinRoles?: readonly NameEdit[];
    readonly pinPeople?: readonly NameEdit<Person>[];
  };
};

/** Settings after a change of them. */
export function changedSettings(before: Settings, { edits = {}, ...told }: SettingsChange): Settings {
  const after = { ...before, ...told };
  const { pinRoles = [], pinPeople = [] } = edits;
  return {
    ...after,
    pinRoles: editedNames(after.pinRoles, pinRoles).names,
    pinPeople: editedNames(after.pinPeople, pinPeople).names,
  };
}

/** A list after edits in their order, with the names it had already and those it never had. */
export function editedNames<Name extends string>(
  before: readonly Name[],
  edits: readonly NameEdit<Name>[],
): { readonly names: readonly Name[]; readonly had: readonly Name[]; readonly lacked: readonly Name[] } {
  const names = [...before];
  const had: Name[] = [];
  const lacked: Name[] = [];
  for (const { kind, name } of edits) {
    const at = names.indexOf(name);
    if (kind === 'add' && at === -1) names.push(name);
    else if (kind === 'add') had.push(name);
    else if (at === -1) lacked.push(name);
    else names.splice(at, 1);
  }
  return { names, had, lacked };
}

export type SettingsKept = {
  readonly read: (place: Place) => Promise<Settings>;
  /**
   * Changes what is named and leaves the rest. Two changes at once come one after the other, each made to what stands
   * then; `before` is what that was.
   */
  readonly change: (
    who: Who,
    change: SettingsChange,
    atMs: number,
  ) => Promise<{ readonly kind: 'changed'; readonly settings: Settings; readonly before: Settings } | SettingsRefused>;
};
