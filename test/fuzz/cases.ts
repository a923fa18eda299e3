import fc from 'fast-check';
import { KEYS } from '../../src/bike/keys.ts';
import { KEPT_COMMANDS } from '../../src/commands/kept-list.ts';
import { COMMANDS, TOPIC_COMMANDS } from '../../src/commands/list.ts';
import { hostileLine, hostileText } from './lines.ts';

type Told = Readonly<Record<string, string>>;

/** One thing somebody does, on every platform that has it. */
export type Case = {
  readonly act: /** A question about a bike in one line, and typed options beside it. */
    | { readonly kind: 'question'; readonly command: string; readonly setup: string; readonly options: Told }
    /** Something about what is kept, each field as typed. */
    | { readonly kind: 'kept'; readonly command: string; readonly action: string; readonly told: Told }
    /** Letters typed into a field that suggests. */
    | {
        readonly kind: 'typing';
        readonly command: string;
        readonly action: string;
        readonly field: string;
        readonly typed: string;
      }
    /** A command on a message that says this. */
    | { readonly kind: 'message'; readonly does: 'pin' | 'reply'; readonly text: string }
    /** A button of an older or another program. */
    | { readonly kind: 'old-button'; readonly id: string; readonly value: string }
    /** Said to the program in a conversation: at a terminal, or by a mention. */
    | { readonly kind: 'talk'; readonly text: string };
  readonly moderator: boolean;
  /** Which of the buttons and lists is used next, time after time. */
  readonly presses: readonly number[];
  /** What is typed into a window that opens. */
  readonly typed: string;
};

/** Words that a program shows by mistake; what is kept for later cards must not bring them in. */
export const SLIPS: RegExp = /\bNaN\b|\bundefined\b|\bInfinity\b|\[object\b/i;
const SLIP_EACH = new RegExp(SLIPS.source, 'gi');
const HIDDEN = /[\p{Cc}\p{Cf}\p{Default_Ignorable_Code_Point}]/gu;

/** A text as a reader may take it: compatible letters, each apart from its marks, nothing hidden. */
export function asRead(text: string): string {
  return text.normalize('NFKD').replace(HIDDEN, '');
}

function withoutSlips(text: string): string {
  return SLIPS.test(asRead(text)) ? asRead(text).replace(SLIP_EACH, 'slip') : text;
}

const keptText = hostileText.map(withoutSlips);
const keptLine = hostileLine.map(withoutSlips);

const commandName = fc.oneof(
  { weight: 12, arbitrary: fc.constantFrom('convert', ...COMMANDS.map(({ name }) => name)) },
  { weight: 1, arbitrary: fc.constantFrom(...TOPIC_COMMANDS) },
);

const key = fc.oneof(
  { weight: 12, arbitrary: fc.constantFrom(...Object.keys(KEYS), 'bike', 'code', 'topic') },
  { weight: 1, arbitrary: hostileText },
);

const question = fc.record({
  kind: fc.constant('question' as const),
  command: fc.oneof(
    { weight: 40, arbitrary: commandName },
    { weight: 1, arbitrary: hostileText.map((text) => text.replaceAll(/\s/g, '-')) },
  ),
  setup: hostileLine,
  options: fc.oneof(
    { weight: 4, arbitrary: fc.constant({}) },
    { weight: 1, arbitrary: fc.dictionary(key, hostileText, { maxKeys: 4 }) },
  ),
});

/** What is there to be named, so that a part of the lines meets something. */
const THERE: Told = { name: 'winter', topic: 'hills', job: '1', row: '1', version: '1', draft: '1', from: 'winter' };

const ACTIONS = KEPT_COMMANDS.flatMap((command) => command.actions.map((action) => ({ command, action })));

const kept = fc.constantFrom(...ACTIONS).chain(({ command, action }) => {
  const fields = action.fields.map(({ name, example, form }) => {
    const good = THERE[name] ?? example.slice(example.indexOf('=') + 1).replace(/^"(.*)"$/, '$1');
    const told = fc.oneof(
      { weight: 5, arbitrary: fc.constant(good) },
      { weight: 3, arbitrary: name === 'setup' ? keptLine : keptText },
      {
        weight: form === 'text' ? 1 : 2,
        arbitrary: fc.constantFrom('1', '2', '0', '-1', '99999999999', 'yes', 'no', ''),
      },
    );
    return [name, told] as const;
  });
  const required = action.fields.filter((field) => field.required).map(({ name }) => name);
  return fc.record({
    kind: fc.constant('kept' as const),
    command: fc.constant(command.name),
    action: fc.constant(action.name),
    told: fc.record(Object.fromEntries(fields), { requiredKeys: required }) as fc.Arbitrary<Told>,
  });
});

const typing = fc.record({
  kind: fc.constant('typing' as const),
  command: fc.constantFrom('convert', 'bike', 'answer', 'job'),
  action: fc.constantFrom('', 'show', 'edit', 'open', 'tick'),
  field: fc.constantFrom('cassette', 'bcd', 'wheel', 'bike', 'name', 'topic', 'job', 'code', 'from', '|'),
  typed: hostileText,
});

const message = fc.record({
  kind: fc.constant('message' as const),
  does: fc.constantFrom('pin' as const, 'reply' as const),
  text: fc.oneof(keptText, keptLine),
});

const oldButton = fc.record({
  kind: fc.constant('old-button' as const),
  id: fc
    .tuple(
      fc.constantFrom(
        '1|see|short|0|',
        '1|see|chain|7|',
        '1|do|',
        '1|pick|tell|',
        '1|pick|view|',
        '1|fix|',
        '1|share|why|0|',
        '1|fill|answer|',
        '1|pin-topic|',
        '1|pin-message|',
        '1|tell|',
        '1|reply|',
        '0|',
        '',
      ),
      fc.oneof(
        fc
          .tuple(fc.constantFrom('convert|', 'bike|', 'answer|', 'job|', 'data|', ''), keptText)
          .map((parts) => parts.join('')),
        keptText,
      ),
    )
    .map((parts) => parts.join('')),
  value: keptText,
});

const talk = fc.record({ kind: fc.constant('talk' as const), text: fc.oneof(hostileLine, keptText) });

export const anyCase: fc.Arbitrary<Case> = fc.record({
  act: fc.oneof(
    { weight: 66, arbitrary: question },
    { weight: 20, arbitrary: kept },
    { weight: 4, arbitrary: talk },
    { weight: 3, arbitrary: typing },
    { weight: 3, arbitrary: message },
    { weight: 4, arbitrary: oldButton },
  ),
  moderator: fc.boolean(),
  presses: fc.oneof(
    { weight: 2, arbitrary: fc.constant([]) },
    { weight: 1, arbitrary: fc.array(fc.nat(30), { minLength: 1, maxLength: 3 }) },
  ),
  typed: keptText,
});

/** What is kept of everybody's questions is shown to them again, slips and all. */
const KEPT_WORDS = 'NaN undefined Infinity [object';

/** Every word that somebody typed in a case, and that may be shown for it. */
export function wordsOf({ act, typed }: Case): string {
  const parts = Object.values(act).flatMap((each) => (typeof each === 'string' ? [each] : Object.entries(each).flat()));
  const showsKept = act.kind === 'kept' && act.command === 'data';
  return [...parts, typed, showsKept ? KEPT_WORDS : ''].join(' ');
}
