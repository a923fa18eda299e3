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
import { type Person, readPerson } from '../records/place.ts';
import { MOST_DAYS, type Settings } from '../records/settings.ts';
import type { Action, Filled, KeptCommand } from './kept.ts';

type Change = { -readonly [Name in keyof Settings]?: Settings[Name] };
type Read =
  | { readonly kind: 'read'; readonly change: Change; readonly lines: readonly string[] }
  | { readonly kind: 'refused'; readonly refusal: Refusal };

type Edited = {
  readonly names: readonly string[];
  readonly had: readonly string[];
  readonly lacked: readonly string[];
};

/** A list with names added and taken away: "+Mods,-Helpers"; a name without a sign is added. Null for an empty name. */
function edited(names: readonly string[], text: string): Edited | null {
  const after = [...names];
  const had: string[] = [];
  const lacked: string[] = [];
  for (const each of text.split(',')) {
    const signed = each.trim();
    const takes = signed.startsWith('-');
    const name = takes || signed.startsWith('+') ? signed.slice(1).trim() : signed;
    if (name === '') return null;
    const at = after.indexOf(name);
    if (takes && at === -1) lacked.push(name);
    else if (takes) after.splice(at, 1);
    else if (at === -1) after.push(name);
    else had.push(name);
  }
  return { names: after, had, lacked };
}

/** Days to keep something, null for "keep"; undefined where it is neither. */
function daysOf(text: string): number | null | undefined {
  if (text.toLowerCase() === 'keep') return null;
  const days = /^\d{1,6}$/.test(text) ? Number(text) : 0;
  return days >= 1 && days <= MOST_DAYS ? days : undefined;
}

function readChange(filled: Filled, before: Settings): Read {
  const change: Change = {};
  const lines: string[] = [];
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
  if (pinroles !== undefined) {
    const roles = edited(before.pinRoles, pinroles);
    if (roles === null) return { kind: 'refused', refusal: noName('pinroles', pinroles) };
    change.pinRoles = roles.names;
    lines.push(...listLines('roles that may pin', roles.had, roles.lacked));
  }
  if (pinpeople !== undefined) {
    const people = edited(before.pinPeople, pinpeople);
    if (people === null) return { kind: 'refused', refusal: noName('pinpeople', pinpeople) };
    const persons: Person[] = [];
    for (const name of people.names) {
      const person = readPerson(name);
      if (person === null) return { kind: 'refused', refusal: noName('pinpeople', name) };
      persons.push(person);
    }
    change.pinPeople = persons;
    lines.push(...listLines('people who may pin', people.had, people.lacked));
  }
  if (Object.keys(change).length === 0) return { kind: 'refused', refusal: nothingToChange() };
  return { kind: 'read', change, lines: [...changeLines(change, before), ...lines] };
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
    const before = await visit.records.settings.read(visit.who.place);
    const read = readChange(filled, before);
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
        const { settings } = done;
        return {
          kind: 'done',
          words: settingsWords(settings, 'The settings are changed.', read.lines),
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
