import { KEYS, type KeyName } from '../bike/keys.ts';
import type { Block } from './card.ts';

type Helped = {
  readonly name: string;
  readonly summary: string;
  readonly keys: readonly KeyName[];
  readonly examples: readonly string[];
};

/** Help for everything, or for the one command that is named. */
export function helpWords(
  topic: string,
  commands: readonly Helped[],
): { readonly answer: string; readonly lines: readonly string[]; readonly blocks: readonly Block[] } {
  const wanted = topic.trim().toLowerCase();
  const one = commands.find((command) => command.name === wanted);
  return one === undefined ? overview(commands) : oneCommand(one);
}

function overview(commands: readonly Helped[]) {
  const blocks: Block[] = [
    {
      kind: 'checklist',
      section: 'help',
      title: 'Commands',
      items: [
        ...commands.map((command) => ({ text: command.name, detail: command.summary })),
        { text: 'measure', detail: 'How to measure what nobody knows by heart: three steps and a picture' },
      ],
    },
    {
      kind: 'text',
      section: 'help',
      title: 'Ready to copy',
      lines: [
        'convert 2x10 36/22 11-36 29er hardtail 104bcd clutch',
        'chain ring=32 cassette=11-36 stays=440mm chain=108',
        'mount gap=73.5mm bolts=4 sharing=1',
        'measure bcd',
      ],
    },
    {
      kind: 'text',
      section: 'help',
      title: 'How to describe a bike',
      lines: [
        'In any order and in your own words: 2x10, 36/22, 11-36, 29er, hardtail, 104bcd, clutch, to 32.',
        'Or key=value, which always works: rings=36/22 cassette=11-36 stays=440mm.',
        'help and a command name lists the keys that command looks at.',
      ],
    },
  ];
  return {
    answer: 'Describe the bike, get the plan for one ring: gears, chain, bolts, torque, weight.',
    lines: ['Start with: convert 2x10 36/22 11-36 29er hardtail 104bcd'],
    blocks,
  };
}

function oneCommand(command: Helped) {
  const blocks: Block[] = [
    {
      kind: 'checklist',
      section: 'help',
      title: 'What it looks at',
      items: command.keys.map((key) => ({ text: KEYS[key].example, detail: KEYS[key].label })),
    },
    {
      kind: 'text',
      section: 'help',
      title: 'Ready to copy',
      lines: command.examples.map((example) => `${command.name} ${example}`),
    },
  ];
  return { answer: `${command.name}: ${command.summary}`, lines: [], blocks };
}
