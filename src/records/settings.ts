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

export type SettingsKept = {
  readonly read: (place: Place) => Promise<Settings>;
  /** Changes what is named and leaves the rest. */
  readonly change: (
    who: Who,
    change: Partial<Settings>,
    atMs: number,
  ) => Promise<{ readonly kind: 'changed'; readonly settings: Settings } | SettingsRefused>;
};
