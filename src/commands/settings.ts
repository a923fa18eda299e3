import type { Refusal } from '../bike/reading.ts';
import { overRefusal } from '../card/kept.ts';
import {
  changeLines,
  listLines,
  noDays,
  noName,
  nothingToChange,
  runsPlaceOnly,
  settingsWords,
} from '../card/settings.ts';
import { readPerson } from '../records/place.ts';
import { editedNames, MOST_DAYS, type NameEdit, type Settings, type SettingsChange } from '../records/settings.ts';
import type { Action, Filled, KeptCommand } from './kept.ts';

type Change = { -readonly [Name in keyof SettingsChange]: SettingsChange[Name] };
type Read =
  | { readonly kind: 'read'; readonly change: SettingsChange }
  | { readonly kind: 'refused'; readonly refusal: Refusal };

/**
 * Names to add to a list and to take away: "+Mods,-Helpers"; a name without a sign is added. Null where one is no name.
 */
function readEdits<Name extends string>(
  text: string,
  readName: (text: string) => Name | null,
): readonly NameEdit<Name>[] | null {
  const edits: NameEdit<Name>[] = [];
  for (const each of text.split(',')) {
    const signed = each.trim();
    const kind = signed.startsWith('-') ? 'take' : 'add';
    const name = readName(/^[+-]/.test(signed) ? signed.slice(1).trim() : signed);
    if (name === null || name === '') return null;
    edits.push({ kind, name });
  }
  return edits;
}

/** Days to keep something, null for "keep"; undefined where it is neither. */
function daysOf(text: string): number | null | undefined {
  if (text.toLowerCase() === 'keep') return null;
  const days = /^\d{1,6}$/.test(text) ? Number(text) : 0;
  return days >= 1 && days <= MOST_DAYS ? days : undefined;
}

function readChange(filled: Filled): Read {
  const change: Change = {};
  const { units, decimals, approvals, pinroles, pinpeople } = filled;
  if (units !== undefined) change.units = units.toLowerCase() === 'imperial' ? 'imperial' : 'metric';
  if (decimals !== undefined) change.decimals = decimals.toLowerCase() === 'comma' ? 'comma' : 'point';
  if (approvals !== undefined) change.approvals = approvals.toLowerCase() === 'yes';
  for (const [field, days] of [
    ['receiptdays', 'receiptDays'],
    ['jobdays', 'jobDays'],
  ] as const) {
    const told = filled[field];
    if (told === undefined) continue;
    const kept = daysOf(told);
    if (kept === undefined) return { kind: 'refused', refusal: noDays(field, told) };
    change[days] = kept;
  }
  const pinRoles = pinroles === undefined ? undefined : readEdits(pinroles, (name) => name);
  if (pinRoles === null) return { kind: 'refused', refusal: noName('pinroles', pinroles ?? '') };
  const pinPeople = pinpeople === undefined ? undefined : readEdits(pinpeople, readPerson);
  if (pinPeople === null) return { kind: 'refused', refusal: noName('pinpeople', pinpeople ?? '') };
  if (pinRoles !== undefined || pinPeople !== undefined) {
    change.edits = {
      ...(pinRoles === undefined ? {} : { pinRoles }),
      ...(pinPeople === undefined ? {} : { pinPeople }),
    };
  }
  if (Object.keys(change).length === 0) return { kind: 'refused', refusal: nothingToChange() };
  return { kind: 'read', change };
}

/** What a change brings with it, and which names it did not change. */
function changedLines(change: SettingsChange, before: Settings): readonly string[] {
  const { pinRoles = [], pinPeople = [] } = change.edits ?? {};
  const roles = editedNames(before.pinRoles, pinRoles);
  const people = editedNames(before.pinPeople, pinPeople);
  return [
    ...changeLines(change, before),
    ...listLines('roles that may pin', roles.had, roles.lacked),
    ...listLines('people who may pin', people.had, people.lacked),
  ];
}

const show: Action = {
  name: 'show',
  summary: 'How this place wants things: units, who may pin, how long things are kept',
  moderators: true,
  public: false,
  fields: [],
  run: async (_, visit) => {
    const settings = await visit.records.settings.read(visit.who.place);
    const lines = visit.runsPlace ? ['To change one: settings change approvals=yes'] : [];
    return { kind: 'done', words: settingsWords(settings, 'The settings of this place.', lines), result: { settings } };
  },
};

const change: Action = {
  name: 'change',
  summary: 'Change how this place wants things; only what is named changes',
  moderators: false,
  public: false,
  fields: [
    {
      name: 'units',
      label: 'Units first',
      form: 'choice',
      required: false,
      choices: ['metric', 'imperial'],
      example: 'units=imperial',
    },
    {
      name: 'decimals',
      label: 'Decimals',
      form: 'choice',
      required: false,
      choices: ['point', 'comma'],
      example: 'decimals=comma',
    },
    {
      name: 'pinroles',
      label: 'Roles that may pin',
      form: 'word',
      required: false,
      example: 'pinroles=+Mods,-Helpers',
    },
    { name: 'pinpeople', label: 'People who may pin', form: 'word', required: false, example: 'pinpeople=+anna' },
    { name: 'approvals', label: 'Second approval', form: 'yes-no', required: false, example: 'approvals=yes' },
    { name: 'receiptdays', label: 'Days receipts are kept', form: 'word', required: false, example: 'receiptdays=365' },
    { name: 'jobdays', label: 'Days closed jobs are kept', form: 'word', required: false, example: 'jobdays=keep' },
  ],
  run: async (filled, visit) => {
    if (!visit.runsPlace) return { kind: 'refused', refusal: runsPlaceOnly() };
    const read = readChange(filled);
    if (read.kind === 'refused') return read;
    const done = await visit.records.settings.change(visit.who, read.change, visit.nowMs);
    switch (done.kind) {
      case 'over':
        return { kind: 'refused', refusal: overRefusal(done) };
      case 'days':
        return {
          kind: 'refused',
          refusal: noDays(done.field === 'jobDays' ? 'jobdays' : 'receiptdays', String(read.change[done.field])),
        };
      case 'changed': {
        const { settings, before } = done;
        return {
          kind: 'done',
          words: settingsWords(settings, 'The settings are changed.', changedLines(read.change, before)),
          result: { settings },
        };
      }
    }
  },
};

/** How a place wants things. */
export const settings: KeptCommand = {
  name: 'settings',
  summary: 'Units, decimals, who may pin, second approval, and how long things are kept here',
  actions: [show, change],
};
