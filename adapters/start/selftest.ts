import type { Reply } from '../../src/request.ts';

/** Asks as somebody of the place. */
export type Say = (
  who: 'member' | 'mechanic' | 'second-mechanic' | 'moderator' | 'second-moderator',
  line: string,
) => Promise<Reply>;

/** Something that must hold, in plain words; what is missing comes back, or null where all is as it must be. */
type Scenario = { readonly words: string; readonly run: (say: Say) => Promise<string | null> };

const HILL = 'convert hill-country hardtail 29er 2x10, 36/22, 11-36, 104 BCD, clutch on, stays 440 mm';

/** The answer must be of that kind, and its card must say all that. */
function says(
  who: Parameters<Say>[0],
  line: string,
  kind: Reply['kind'],
  facts: readonly string[],
  never: readonly string[] = [],
): Scenario['run'] {
  return async (say) => {
    const reply = await say(who, line);
    if (reply.kind !== kind) return `expected ${kind}, was ${reply.kind}: ${reply.card.answer}`;
    const text = JSON.stringify(reply.card);
    const missing = facts.find((fact) => !text.includes(fact));
    if (missing !== undefined) return `does not say “${missing}”`;
    const wrong = never.find((each) => text.includes(each));
    return wrong === undefined ? null : `says “${wrong}”`;
  };
}

/** The scenarios, in the order they build on each other. */
export const SCENARIOS: readonly Scenario[] = [
  {
    words: 'A hill-country hardtail gets three rings compared, a chain length and a way to keep its low gear',
    run: says('member', HILL, 'answered', ['30T', '32T', '34T', '+45 %', '327 %', '536 %', '106 pitches', 'two weeks']),
  },
  {
    words: 'A chain of 108 pitches loses one pair',
    run: says('member', `${HILL} chain=108`, 'answered', ['take out 2 (one pair)']),
  },
  {
    words: 'An old triple keeps to its outer circle, and half its range',
    run: says('member', 'convert 26in triple 44/32/22, 11-34, 104/64', 'answered', [
      '+45 %',
      '309 %',
      '618 %',
      '64 mm',
    ]),
  },
  {
    words: 'Five bolts 64.7 mm apart are a 110 mm circle',
    run: says(
      'member',
      'convert road compact 50/34, 11-32, five bolts 64.7 mm apart, 700x28 ring=42 stays 410',
      'answered',
      ['110 mm', '104 pitches', '43.9 km/h'],
    ),
  },
  {
    words: 'Somebody who knows nothing gets questions and the free trial, and no invented numbers',
    run: says('member', 'convert can i go 1x?', 'asks', ['two weeks'], ['N·m', 'km/h']),
  },
  {
    words: 'A ring smaller than its bolts is refused, with the reason',
    run: says('member', 'convert 26T narrow-wide on 104', 'refused', ['97.6 mm', '104', '32T']),
  },
  {
    words: 'An odd ring is not made narrow-wide, and the answer says why',
    run: says('member', `${HILL} ring=33`, 'answered', ['33T is odd']),
  },
  {
    words: 'Rear suspension without its longest distance gets no number to cut',
    run: says('member', 'chain full sus 36/26, 11-42, 32T, stays 435', 'answered', ['longest'], ['take out']),
  },
  {
    words: 'With its longest distance it gets one: 112 pitches',
    run: says('member', 'chain full sus 36/26, 11-42, 32T, stays 435, 452 at longest', 'answered', ['112 pitches']),
  },
  {
    words: 'A story that contradicts itself is asked about, not guessed',
    run: says('member', 'convert 2x10 hardtail 42/32/24, 140 mm rear shock', 'asks', ['?'], ['106 pitches']),
  },
  {
    words: 'A folder with small wheels gets its large ring, and a longer chain, not a shorter one',
    run: says('member', 'convert 16-inch folder, 52/39, 11-32, want 60T, stays 400, chain 108', 'answered', [
      '112 pitches',
      'add 4',
      'the fold',
    ]),
  },
  {
    words: 'A chain joined with a pin is not joined with the old pin again',
    run: says('member', 'chain 36/22 11-36 ring=32 stays=440 joined with a pin', 'answered', [
      'Never press a pushed-out pin back in',
      'joining link',
    ]),
  },
  {
    words: 'A derailleur that takes neither the largest sprocket nor the whole range is named for both',
    run: says(
      'member',
      'convert 2x10 36/22 11-36 29er hardtail 104bcd add 11-46, mech says max 36, short cage; 32T stays 440',
      'answered',
      ['Not with this rear derailleur', '36T', '35 teeth of capacity'],
    ),
  },
  {
    words: 'The same bike in other signs and digits gets the same answer',
    run: async (say) => {
      const plain = await say('member', 'convert 2x10 36/22 11-36');
      for (const line of ['convert 2×10 · 22–36T, 36−11', 'convert ٢x١٠ rings=36,22 cassette=11/36']) {
        const other = await say('member', line);
        if (JSON.stringify(other.card) !== JSON.stringify(plain.card)) return `"${line}" is answered otherwise`;
      }
      return null;
    },
  },
  {
    words: 'A number that is none gets one calm sentence with what is allowed',
    run: says('member', 'convert ring=NaN', 'refused', ['18', '70'], ['undefined', 'Infinity']),
  },
  {
    words: 'A mention or markup hidden in the line does not keep the bike from being answered',
    run: says('member', `${HILL} @everyone <b>x</b>`, 'answered', ['32T']),
  },
  {
    words: 'A member cannot pin a standard answer',
    run: says('member', 'answer pin hills text="32 suits our hills."', 'refused', ['for the moderators']),
  },
  {
    words: 'A moderator pins one, and it waits for a second moderator',
    run: says('moderator', 'answer pin hills text="32 suits our hills."', 'kept', ['waits for a second moderator']),
  },
  {
    words: 'Nobody approves their own text',
    run: says('moderator', 'answer approve hills 1', 'refused', ['a second person must approve']),
  },
  {
    words: 'A second moderator approves it, and everybody finds it',
    run: async (say) =>
      (await says('second-moderator', 'answer approve hills 1', 'kept', ['hills'])(say)) ??
      says('member', 'answer show hills', 'kept', ['32 suits our hills.'])(say),
  },
  {
    words: 'A job opens, one row is ticked, and the job does not close before every row is settled',
    run: async (say) =>
      (await says(
        'mechanic',
        'job open title="Hardtail" 2x10 36/22 11-36 29er hardtail 104bcd ring=32 cranktype=pinch boltmaterial=aluminium',
        'kept',
        ['Job 1'],
      )(say)) ??
      (await says('mechanic', 'job tick 1 3 value=13.5 wrench=A1', 'kept', ['mechanic'])(say)) ??
      says('mechanic', 'job close 1', 'refused', ['for a signature'])(say),
  },
  {
    words: 'The second check on the crank must be somebody else',
    run: async (say) =>
      (await says('mechanic', 'job second 1 3 value=13.5 wrench=A1', 'refused', ["somebody else's"])(say)) ??
      says('second-mechanic', 'job second 1 3 value=13.5 wrench=A1', 'kept', ['Two people have signed it.'])(say),
  },
  {
    words: 'A plan ends with its torque caution: what is printed on the part wins',
    run: says('member', HILL, 'answered', ['"caution"', 'maker']),
  },
  {
    words: 'The same question gives the same answer, letter by letter',
    run: async (say) => {
      const [one, two] = [await say('member', HILL), await say('mechanic', HILL)];
      return JSON.stringify(one.card) === JSON.stringify(two.card) ? null : 'two answers differ';
    },
  },
  {
    words: 'Somebody who asks for it has everything about them deleted',
    run: async (say) =>
      (await says('member', 'data delete confirm=yes', 'kept', [])(say)) ??
      says('member', 'data show', 'kept', ['Nothing is kept about you here.'])(say),
  },
];

export type Tested = { readonly passed: number; readonly failed: number; readonly lines: readonly string[] };

/** Runs every scenario, and says of each in plain words whether it holds. */
export async function selfTest(say: Say): Promise<Tested> {
  const lines: string[] = [];
  let failed = 0;
  for (const { words, run } of SCENARIOS) {
    const why = await run(say);
    if (why !== null) failed += 1;
    lines.push(why === null ? `pass  ${words}` : `FAIL  ${words}: ${why}`);
  }
  return { passed: SCENARIOS.length - failed, failed, lines };
}
