import { KEYS, type KeyName } from '../bike/keys.ts';
import type { Block } from './card.ts';

type Helped = {
  readonly name: string;
  readonly summary: string;
  readonly keys: readonly KeyName[];
  readonly examples: readonly string[];
};

type HelpedKept = {
  readonly name: string;
  readonly summary: string;
  readonly actions: readonly {
    readonly name: string;
    readonly summary: string;
    readonly moderators: boolean;
    readonly fields: readonly { readonly example: string; readonly required: boolean }[];
  }[];
};

type HelpWords = { readonly answer: string; readonly lines: readonly string[]; readonly blocks: readonly Block[] };

/** Help for everything this person may use, or for the one command that is named. */
export function helpWords(topic: string, commands: readonly Helped[], kept: readonly HelpedKept[]): HelpWords {
  const wanted = topic.trim().toLowerCase();
  const one = commands.find((command) => command.name === wanted);
  if (one !== undefined) return oneCommand(one);
  const thing = kept.find((command) => command.name === wanted);
  return thing === undefined ? overview(commands, kept) : oneKept(thing);
}

function section(title: string, lines: readonly string[]): Block {
  return { kind: 'text', section: 'help', title, lines };
}

function overview(commands: readonly Helped[], kept: readonly HelpedKept[]): HelpWords {
  const blocks: Block[] = [
    section('Ready to copy', [
      'convert 2x10 36/22 11-36 29er hardtail 104bcd clutch',
      'chain ring=32 cassette=11-36 stays=440mm chain=108',
      'measure bcd',
    ]),
    section('About a bike', [
      ...commands.map((command) => `${command.name}: ${command.summary}.`),
      'measure: how to measure what nobody knows by heart, in three steps and a picture.',
    ]),
  ];
  if (kept.length > 0) {
    blocks.push(
      section(
        'What is kept here',
        kept.map((command) => `${command.name}: ${command.summary}.`),
      ),
    );
  }
  blocks.push(
    section('How to describe a bike', [
      'In any order and in your own words: 2x10, 36/22, 11-36, 29er, hardtail, 104bcd, clutch, to 32.',
      'Or key=value, which always works: rings=36/22 cassette=11-36 stays=440mm.',
      'help and a command name tells more about that command.',
    ]),
  );
  return {
    answer: 'Describe the bike, get the plan for one ring: gears, chain, bolts, torque, weight.',
    lines: ['Start with: convert 2x10 36/22 11-36 29er hardtail 104bcd'],
    blocks,
  };
}

function oneCommand(command: Helped): HelpWords {
  return {
    answer: `${command.name}: ${command.summary}.`,
    lines: [],
    blocks: [
      section(
        'Ready to copy',
        command.examples.map((example) => `${command.name} ${example}`),
      ),
      section(
        'What it looks at',
        command.keys.map((key) => `${KEYS[key].example}: ${KEYS[key].label.toLowerCase()}.`),
      ),
    ],
  };
}

function oneKept(command: HelpedKept): HelpWords {
  const line = (action: HelpedKept['actions'][number]) => {
    const fields = action.fields.map((field) => (field.required ? field.example : `[${field.example}]`));
    return `${[command.name, action.name, ...fields].join(' ')}: ${action.summary}.`;
  };
  const everybody = command.actions.filter((action) => !action.moderators);
  const moderators = command.actions.filter((action) => action.moderators);
  return {
    answer: `${command.name}: ${command.summary}.`,
    lines: ['What stands in [ ] may be left out.'],
    blocks: [
      ...(everybody.length > 0 ? [section('For everybody', everybody.map(line))] : []),
      ...(moderators.length > 0 ? [section('For moderators', moderators.map(line))] : []),
    ],
  };
}
