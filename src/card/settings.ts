import type { Refusal } from '../bike/reading.ts';
import type { Words } from '../commands/command.ts';
import { MOST_DAYS, type Settings } from '../records/settings.ts';
import type { ActionsBlock } from './card.ts';
import { RIGHTS } from './kept.ts';

function days(count: number | null): string {
  if (count === null) return 'no end';
  return count === 1 ? '1 day' : `${count} days`;
}

function named(names: readonly string[]): string {
  return names.length === 0 ? 'nobody' : names.join(', ');
}

function settingLines(settings: Settings): readonly string[] {
  return [
    `Units first: ${settings.units}`,
    `Decimals: ${settings.decimals}`,
    `Roles that may pin: ${named(settings.pinRoles)}`,
    `People who may pin: ${named(settings.pinPeople)}`,
    `Second approval of standard answers: ${settings.approvals ? 'yes' : 'no'}`,
    `Receipts are kept: ${days(settings.receiptDays)}`,
    `Closed jobs are kept: ${days(settings.jobDays)}`,
  ];
}

function settingActions(settings: Settings): ActionsBlock {
  const units = settings.units === 'metric' ? 'imperial' : 'metric';
  const decimals = settings.decimals === 'point' ? 'comma' : 'point';
  const approvals = settings.approvals ? 'no' : 'yes';
  return {
    kind: 'actions',
    section: 'kept',
    title: 'Change',
    actions: [
      { label: `Units: ${units}`, setup: `change units=${units}` },
      { label: `Decimals: ${decimals}`, setup: `change decimals=${decimals}` },
      { label: `Second approval: ${approvals}`, setup: `change approvals=${approvals}` },
    ],
  };
}

/** How the place wants things, or how it wants them from now on. */
export function settingsWords(settings: Settings, answer: string, lines: readonly string[]): Words {
  return {
    answer,
    lines,
    blocks: [
      { kind: 'text', section: 'kept', title: 'Settings of this place', lines: settingLines(settings) },
      settingActions(settings),
    ],
  };
}

/** What a change brings with it that its own words do not say. */
export function changeLines(change: Partial<Settings>, before: Settings): readonly string[] {
  const lines: string[] = [];
  if (change.approvals === true) lines.push('From now on a second moderator approves; nobody approves their own text.');
  if (
    change.receiptDays !== undefined &&
    change.receiptDays !== null &&
    sooner(change.receiptDays, before.receiptDays)
  ) {
    lines.push(`Receipts older than ${days(change.receiptDays)} go at the next sweep.`);
  }
  if (change.jobDays !== undefined && change.jobDays !== null && sooner(change.jobDays, before.jobDays)) {
    lines.push(`Jobs closed more than ${days(change.jobDays)} ago go at the next sweep, log and all.`);
  }
  return lines;
}

function sooner(days: number, before: number | null): boolean {
  return before === null || days < before;
}

/** Names that a list had already, or never had: in one line, or none. */
export function listLines(list: string, had: readonly string[], lacked: readonly string[]): readonly string[] {
  const known = had.length === 0 ? '' : `Among the ${list} already: ${named(had)}.`;
  const unknown = lacked.length === 0 ? '' : `Not among the ${list}: ${named(lacked)}.`;
  const line = `${known} ${unknown}`.trim();
  return line === '' ? [] : [line];
}

const EXAMPLE = 'settings change pinroles=+Mods,-Helpers approvals=yes';

/** Only whoever runs the place changes how it is run. */
export function runsPlaceOnly(): Refusal {
  return {
    field: RIGHTS.runsPlace,
    message: 'The settings are changed by those who run this place.',
    allowed: 'settings show for moderators; ask somebody who runs the place for a change',
    example: 'settings show',
  };
}

/** A change that names nothing to change. */
export function nothingToChange(): Refusal {
  return {
    field: 'settings',
    message: 'It is not said what to change.',
    allowed: 'units, decimals, pinroles, pinpeople, approvals, receiptdays, jobdays; any of them at once',
    example: EXAMPLE,
  };
}

/** A number of days that is none, or outside what is allowed. */
export function noDays(field: 'receiptdays' | 'jobdays', text: string): Refusal {
  return {
    field,
    message: `"${[...text].slice(0, 40).join('')}" is no number of days to keep something.`,
    allowed: `a whole number from 1 to ${MOST_DAYS}, or keep for no end`,
    example: `settings change ${field}=365`,
  };
}

/** A name in a list that can be nobody's. */
export function noName(field: 'pinroles' | 'pinpeople', text: string): Refusal {
  return {
    field,
    message: `"${[...text].slice(0, 40).join('')}" can be no name here.`,
    allowed: 'names as the platform knows them, with commas between: Mods or +Mods adds, -Mods takes away',
    example: EXAMPLE,
  };
}
