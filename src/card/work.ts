import { JOINING_LINKS } from '../tables/chain-widths.ts';
import type { Block, ChecklistBlock, TextBlock } from './card.ts';
import { article, pitches, plain } from './measures.ts';
import { crankOff, crankOn, crankTools } from './work-crank.ts';
import { batteryOut, driveChecks, ringAtTheMotor, tandemCrank } from './work-drive.ts';

type Item = { readonly text: string; readonly detail?: string };

/** What the order of work hangs on; null where nobody knows yet. */
export type WorkFacts = {
  readonly ringTeeth: number;
  /** False on a bike that has one ring already. */
  readonly frontDerailleur: boolean;
  readonly mount: 'bolted' | 'direct' | 'riveted' | null;
  readonly bcdMm: number | null;
  /** Holes that are not evenly spaced: then the circle alone does not name a ring. */
  readonly unevenPattern: boolean;
  readonly bolts: number | null;
  readonly boltAdvice: 'reuse' | 'shorter-or-spacer' | 'ask';
  readonly crankType: 'pinch' | 'taper' | 'splined' | null;
  readonly bar: 'flat' | 'drop' | null;
  readonly clutch: boolean | null;
  readonly guide: boolean | null;
  readonly join: 'link' | 'pin' | null;
  readonly speeds: number | null;
  /** `measure-first`: nothing may be cut yet. */
  readonly chainGate: 'clear' | 'measure-first';
  readonly chainWorn: boolean;
  readonly targetPitches: number | null;
  readonly removePitches: number | null;
  readonly addPitches: number | null;
  readonly newCassette: boolean;
  /** Null where there is no motor, or none is told. */
  readonly assist: 'hub' | 'mid-drive' | 'yes' | null;
  readonly tandem: boolean;
};

/** From this many sprockets on, makers call their joining links single-use. */
const SINGLE_USE_SPEEDS = JOINING_LINKS[1].lowSpeeds;

function before(facts: WorkFacts): Block {
  const items: Item[] = [...batteryOut(facts.assist)];
  if (facts.frontDerailleur) {
    items.push(
      { text: 'Ride two weeks in one ring, or mend the front mech by its limit screws.', detail: 'Both cost nothing.' },
      { text: 'Photograph the cable path and the levers.' },
    );
  }
  items.push({
    text: facts.frontDerailleur ? 'Shift onto the largest ring, or wear gloves.' : 'Wear gloves at the ring bolts.',
    detail: 'Ring teeth cut when a tight bolt lets go.',
  });
  return { kind: 'checklist', section: 'work', title: 'Before you undo anything', items };
}

function after(facts: WorkFacts): Block {
  const items: Item[] = [
    { text: 'Turn the ring by hand: it must not wobble, click or touch the chainstay.' },
    { text: 'Run every gear on the stand.' },
    { text: 'Lowest gear: look along the chain; nothing rubs, nothing binds.' },
    { text: 'Back-pedal in the lowest gear: the chain stays on.' },
    { text: 'At least 3 mm (0.12 in) between ring, chain and frame.' },
  ];
  if (movesLever(facts)) items.push({ text: 'Both brake levers at the same angle and reach.' });
  items.push(...driveChecks(facts.assist, facts.tandem), {
    text: 'Torque list ticked, and again after the first ride.',
  });
  return { kind: 'checklist', section: 'work', title: 'Before the first ride', items };
}

/** On a drop bar the front shifter stays in its lever, and with one ring there is none. */
function movesLever({ frontDerailleur, bar }: WorkFacts): boolean {
  return frontDerailleur && bar !== 'drop';
}

const BACK_TITLE = 'If you ever go back';

function goingBack({ frontDerailleur }: WorkFacts): ChecklistBlock {
  const parts = frontDerailleur
    ? 'rings, bolts, front mech, shifter and chain ends'
    : 'the ring, its bolts and chain ends';
  return {
    kind: 'checklist',
    section: 'work',
    title: BACK_TITLE,
    items: [
      { text: `Keep ${parts} in one bag.` },
      {
        text: 'Write the old chain length on the bag.',
        detail: 'A shortened chain needs its pitches back, or a new one.',
      },
      { text: 'Back: the same steps the other way, with the torque list.' },
    ],
  };
}

const STAYS = 'Stays on the bike';

const TIME: TextBlock = {
  kind: 'text',
  section: 'work',
  title: 'Time',
  lines: ['About an hour (common practice); 45 to 120 minutes in all (memory).'],
};

function chainOpen(facts: WorkFacts): Item {
  if (!facts.frontDerailleur) return { text: 'Open the chain.' };
  const detail = 'The front mech comes off only after that.';
  if (facts.join === 'link') return { text: 'Open the chain at its joining link.', detail };
  if (facts.join === 'pin') {
    return { text: 'Open the front mech cage, or the chain where its new link will go.', detail };
  }
  return { text: 'Open the chain at its joining link, or open the front mech cage.', detail };
}

function chainSize(facts: WorkFacts): Item {
  if (facts.chainGate === 'measure-first') {
    return { text: 'Do not cut the chain yet.', detail: 'Its section says what to measure first.' };
  }
  if (facts.chainWorn && facts.targetPitches !== null) {
    return {
      text: `Cut the new chain to ${pitches(facts.targetPitches)}.`,
      detail: 'Wrap big to big once more before you cut.',
    };
  }
  if (facts.removePitches !== null && facts.removePitches > 0) {
    return { text: `Take out ${pitches(facts.removePitches)}.`, detail: 'Wrap big to big once more before you cut.' };
  }
  if (facts.addPitches !== null && facts.addPitches > 0) {
    return {
      text: `The chain is short by ${pitches(facts.addPitches)}.`,
      detail: 'A longer chain, joined as made for it.',
    };
  }
  return {
    text: 'Wrap the chain big to big, rear mech bypassed, plus one pair.',
    detail: 'Cut nothing before that agrees with the target.',
  };
}

function chainJoin(facts: WorkFacts): Item {
  const text = 'Wide teeth go under outer plates; then join the chain.';
  if (facts.join === 'pin') {
    return {
      text,
      detail: "Never push an old pin back in: the right new pin, or a joining link of the chain's speed.",
    };
  }
  return facts.speeds !== null && facts.speeds >= SINGLE_USE_SPEEDS
    ? { text, detail: 'Makers call joining links of 10-speed and up single-use: a new one.' }
    : { text, detail: 'The joining link must be for this chain; from 10-speed up a new one each time.' };
}

function controls(bar: WorkFacts['bar']): readonly Item[] {
  const cable: Item = {
    text: 'Cut the cable cap off with care, pull the inner cable out.',
    detail: 'Frayed ends find fingers. Plug the open port in the frame.',
  };
  const lever = 'Put the brake lever back where it was, at the angle of its twin.';
  if (bar === 'drop') return [cable, { text: 'Leave the lever on the bar; its front shifter stays empty.' }];
  const shifter = bar === 'flat' ? 'Take the front shifter off the bar.' : 'Flat bar: take the front shifter off it.';
  return [cable, { text: shifter, detail: lever }];
}

function ringSwap(facts: WorkFacts): readonly Item[] {
  if (facts.mount === 'riveted') return [{ text: 'Riveted rings: put the other crank on instead.' }];
  const clean: Item = { text: 'Degrease the crank arm before the new ring goes on.' };
  if (facts.mount === 'direct') {
    return [
      { text: 'Undo the lockring or the small screws, lift the ring off.' },
      clean,
      { text: `Fit the ${facts.ringTeeth}T ring in its one position.`, detail: "The crank maker's figure only." },
    ];
  }
  const bolts: Record<WorkFacts['boltAdvice'], string> = {
    reuse: 'The old bolts of that circle go back in; head and sleeve must not meet.',
    'shorter-or-spacer': 'Bolts for one ring, or a washer as thick as the ring tab that left.',
    ask: 'Try the bolts dry first: head and sleeve must not meet.',
  };
  return [
    { text: `Ease the ring bolts in a star, then take ${facts.frontDerailleur ? 'every' : 'the'} ring off.` },
    clean,
    { text: `Bolt the ${facts.ringTeeth}T ring on in a star, in two passes.`, detail: bolts[facts.boltAdvice] },
  ];
}

function order(facts: WorkFacts): Block {
  const items: Item[] = [];
  if (facts.clutch !== false) items.push({ text: 'Turn the clutch of the rear mech off, if it has one.' });
  items.push(chainOpen(facts));
  if (facts.frontDerailleur) {
    items.push({ text: 'Take the front mech off (mech: derailleur).' }, ...controls(facts.bar));
  }
  items.push(...tandemCrank(facts.tandem));
  if (facts.assist === 'mid-drive') items.push(...ringAtTheMotor(facts.ringTeeth));
  else items.push(...crankOff(facts.crankType), ...ringSwap(facts), ...crankOn(facts.crankType));
  if (facts.newCassette) items.push({ text: 'Swap the cassette; lockring by torque.' });
  items.push(chainSize(facts), chainJoin(facts));
  if (facts.clutch !== false) items.push({ text: 'Turn the clutch on again.' });
  return { kind: 'checklist', section: 'work', title: 'Order of work', items };
}

function tools(facts: WorkFacts): Block {
  const lines = [
    'Torque wrench for 2 to 50 N·m (18 to 443 lbf·in); may take two',
    facts.frontDerailleur ? 'Hex keys, cable cutter, gloves' : 'Hex keys, gloves',
  ];
  const atTheMotor = facts.assist === 'mid-drive';
  if (facts.mount !== 'direct' && facts.mount !== 'riveted' && !atTheMotor) {
    lines.push('5 mm hex key, and for the sleeves a 6 mm hex or two-pronged key');
  }
  if (atTheMotor) lines.push("The drive unit maker's own tools for ring and crank arm");
  else {
    if (facts.mount === 'direct' || facts.mount === null)
      lines.push("Direct mount: the ring maker's own tool or driver");
    lines.push(...crankTools(facts.crankType));
  }
  lines.push(facts.join === 'pin' ? 'Chain tool' : 'Chain-joining pliers; a chain tool if pitches come out');
  if (facts.newCassette) lines.push('Lockring tool and sprocket holder');
  lines.push('Degreaser, and grease or threadlocker as the maker says');
  return { kind: 'text', section: 'work', title: 'Tools', lines };
}

function ringPart(facts: WorkFacts): Item {
  const text = `${facts.ringTeeth}T narrow-wide ring`;
  if (facts.assist === 'mid-drive') return { text, detail: "From the drive unit maker's list, for this very model." };
  if (facts.mount === 'direct') return { text, detail: "For this crank's own interface and offset." };
  if (facts.bcdMm === null) return { text, detail: 'Measure the bolt circle before you order.' };
  const bolts = facts.bolts === null ? '' : `, ${facts.bolts} bolts`;
  const size = `${plain(facts.bcdMm, 1)} mm`;
  if (facts.unevenPattern) {
    return { text, detail: `For this crank's own uneven pattern${bolts}: ${size} alone is not enough.` };
  }
  const detail = `For ${article(facts.bcdMm)} ${size} bolt circle${bolts}.`;
  // Where the motor sits is not told: in a hub the circle decides, at the cranks it does not.
  return { text, detail: facts.assist === 'yes' ? `${detail} At a motor only one its maker lists.` : detail };
}

function parts(facts: WorkFacts): readonly Block[] {
  const speed = facts.speeds === null ? "the chain's" : `${facts.speeds}`;
  const must: Item[] = facts.mount === 'riveted' ? [{ text: 'Another crank' }, ringPart(facts)] : [ringPart(facts)];
  const maybe: Item[] = [];
  const link: Item = { text: `Joining link for ${speed} speed, new` };
  if (facts.join === 'pin' || (facts.speeds ?? 0) >= SINGLE_USE_SPEEDS) must.push(link);
  else maybe.push(link);
  if (facts.newCassette) must.push({ text: 'The new cassette' });
  if (facts.assist !== 'mid-drive' && (facts.mount === 'bolted' || facts.mount === null)) {
    const bolts: Item = {
      text: 'Single-ring bolts, or spacers',
      detail: 'Ask for the sleeve length in mm; take an old bolt to the shop.',
    };
    if (facts.mount === 'bolted' && facts.boltAdvice === 'shorter-or-spacer') must.push(bolts);
    else if (facts.boltAdvice !== 'reuse') maybe.push(bolts);
  }
  if (facts.chainWorn) must.push({ text: 'A new chain', detail: 'Yours is worn: leave it whole, cut the new one.' });
  else if (facts.addPitches !== null && facts.addPitches > 0) must.push({ text: 'A longer chain' });
  else maybe.push({ text: 'A new chain', detail: 'A new narrow-wide ring wants one that is not worn.' });
  if (facts.guide !== true) maybe.push({ text: 'Chain guide' });
  if (facts.frontDerailleur) maybe.push({ text: 'Plug for the cable port' });
  const keep = facts.newCassette ? 'Rear mech if it takes the cassette' : 'Cassette and rear mech';
  return [
    { kind: 'checklist', section: 'work', title: 'Parts you must have', items: must },
    { kind: 'checklist', section: 'work', title: 'Parts you may need', items: maybe },
    {
      kind: 'text',
      section: 'work',
      title: STAYS,
      lines: [facts.mount === 'riveted' ? `${keep}, rear shifter` : `${keep}, rear shifter, crank`],
    },
  ];
}

/** What of the work section helps whoever decides, and nobody at the bench. */
export const DECIDING_TITLES: readonly (string | undefined)[] = [TIME.title, BACK_TITLE, STAYS];

/** The work section: what to buy, what to have ready, what to do in which order, and how to go back. */
export function workBlocks(facts: WorkFacts): readonly Block[] {
  return [before(facts), ...parts(facts), tools(facts), TIME, order(facts), after(facts), goingBack(facts)];
}
