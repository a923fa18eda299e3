import { describe, expect, it } from 'vitest';
import type { Block } from '../../src/card/card.ts';
import { BETTER_LEFT_ALONE, objectionBlocks } from '../../src/card/objections.ts';
import { type WorkFacts, workBlocks } from '../../src/card/work.ts';
import { objectionsFor } from '../../src/commands/objections.ts';
import { bike } from '../support/outcomes.ts';

const FACTS: WorkFacts = {
  ringTeeth: 32,
  frontDerailleur: true,
  mount: 'bolted',
  bcdMm: 104,
  unevenPattern: false,
  bolts: 4,
  boltAdvice: 'reuse',
  crankType: 'pinch',
  bar: 'flat',
  clutch: true,
  guide: null,
  join: 'link',
  speeds: 10,
  chainGate: 'clear',
  chainWorn: false,
  targetPitches: 106,
  removePitches: 2,
  addPitches: null,
  newCassette: false,
  assist: null,
  tandem: false,
};

function items(blocks: readonly Block[], title: string): readonly string[] {
  const block = blocks.find((each) => each.kind === 'checklist' && each.title === title);
  return block?.kind === 'checklist' ? block.items.map((item) => `${item.text} ${item.detail ?? ''}`) : [];
}

const order = (facts: Partial<WorkFacts> = {}) => items(workBlocks({ ...FACTS, ...facts }), 'Order of work');
const parts = (facts: Partial<WorkFacts> = {}) => items(workBlocks({ ...FACTS, ...facts }), 'Parts you must have');
const at = (steps: readonly string[], words: string) => steps.findIndex((step) => step.includes(words));

describe('the ring to buy', () => {
  it('is named by its circle only where the circle names it', () => {
    expect(parts()[0]).toBe('32T narrow-wide ring For a 104 mm bolt circle, 4 bolts.');
    expect(parts({ bcdMm: 86, bolts: 3 })[0]).toContain('For an 86 mm bolt circle, 3 bolts.');
    const uneven = parts({ bcdMm: 96, unevenPattern: true })[0];
    expect(uneven).toContain("For this crank's own uneven pattern, 4 bolts: 96 mm alone is not enough.");
  });
});

describe('the order of work', () => {
  it('opens the chain before the front derailleur comes off', () => {
    const steps = order();
    expect(at(steps, 'joining link')).toBeGreaterThan(-1);
    expect(at(steps, 'joining link')).toBeLessThan(at(steps, 'Take the front mech off'));
  });

  it('eases pinch bolts before the cap, and sets the cap before it tightens them', () => {
    const steps = order();
    expect(at(steps, 'Ease both pinch bolts')).toBeLessThan(at(steps, 'Unscrew the cap'));
    expect(at(steps, 'Set the cap by hand')).toBeLessThan(at(steps, 'Only now the pinch bolts'));
    expect(steps.join(' ')).toContain('Never hit or lever against a ring');
  });

  it('turns the clutch off first and on last', () => {
    const steps = order();
    expect(at(steps, 'clutch of the rear mech off')).toBe(0);
    expect(at(steps, 'clutch on again')).toBe(steps.length - 1);
    expect(order({ clutch: false }).join(' ')).not.toContain('clutch');
  });

  it('names the pitches in pairs and millimetres', () => {
    expect(order().join(' ')).toContain('Take out 2 pitches (1 pair, 25.4 mm)');
  });

  it('cuts the new chain and not the worn one', () => {
    expect(order({ chainWorn: true }).join(' ')).toContain('Cut the new chain to 106 pitches');
    expect(order({ chainWorn: true }).join(' ')).not.toContain('Take out');
    expect(items(workBlocks({ ...FACTS, chainWorn: true }), 'Parts you must have').join()).toContain('A new chain');
    const shut = order({ chainWorn: true, chainGate: 'measure-first', targetPitches: null, removePitches: null });
    expect(shut.join(' ')).toContain('Do not cut the chain yet');
  });

  it('names no cut while something must be measured first', () => {
    const steps = order({ chainGate: 'measure-first', removePitches: null }).join(' ');
    expect(steps).toContain('Do not cut the chain yet');
    expect(steps).not.toContain('Take out');
  });

  it('never has an old pin pushed back', () => {
    expect(order({ join: 'pin' }).join(' ')).toContain('Never push an old pin back in');
  });

  it('leaves out what a bike with one ring does not have', () => {
    expect(order({ frontDerailleur: false }).join(' ')).not.toMatch(/front (mech|shifter)/);
    const all = JSON.stringify(workBlocks({ ...FACTS, frontDerailleur: false }));
    expect(all).not.toMatch(/front mech|two weeks|brake lever|cable/);
  });
});

describe('parts and tools', () => {
  it('puts a new joining link among the musts from 10 speeds on: single-use by their makers’ word', () => {
    expect(items(workBlocks(FACTS), 'Parts you must have').join()).toContain('Joining link for 10 speed');
    expect(items(workBlocks({ ...FACTS, speeds: 9 }), 'Parts you may need').join()).toContain(
      'Joining link for 9 speed',
    );
  });

  it('buys bolts only where those at hand are too long, or may be', () => {
    const must = (advice: WorkFacts['boltAdvice']) =>
      items(workBlocks({ ...FACTS, boltAdvice: advice }), 'Parts you must have').join();
    const may = (advice: WorkFacts['boltAdvice']) =>
      items(workBlocks({ ...FACTS, boltAdvice: advice }), 'Parts you may need').join();
    expect([must('reuse'), may('reuse')].join()).not.toContain('Single-ring bolts');
    expect(must('shorter-or-spacer')).toContain('Single-ring bolts');
    expect(may('ask')).toContain('Single-ring bolts');
  });

  it('asks to measure the bolt circle before ordering while it is unknown', () => {
    expect(items(workBlocks({ ...FACTS, bcdMm: null }), 'Parts you must have')[0]).toContain('Measure the bolt circle');
  });

  it('offers no chain guide to a bike that has one', () => {
    const may = (guide: boolean | null) => items(workBlocks({ ...FACTS, guide }), 'Parts you may need').join();
    expect(may(null)).toContain('Chain guide');
    expect(may(true)).not.toContain('Chain guide');
  });

  it('needs another crank for riveted rings', () => {
    expect(items(workBlocks({ ...FACTS, mount: 'riveted' }), 'Parts you must have')[0]).toContain('Another crank');
  });
});

describe('objections', () => {
  it('come as cautions, with the numbers that collide', () => {
    const found = objectionsFor(bike({ maxRingTeeth: 30 }), 32);
    expect(found.map((each) => each.basis)).toEqual(['common-practice']);
    const [first] = objectionBlocks(found);
    expect(first).toMatchObject({ kind: 'caution' });
    expect(JSON.stringify(first)).toContain('room for 30T, the crank takes 32T at least');
  });

  it('leave the cases nobody can see from here to a list of their own', () => {
    const words = JSON.stringify(BETTER_LEFT_ALONE);
    for (const each of ['pedal-assist', 'rental', 'warranty', 'tandem', 'Riveted']) expect(words).toContain(each);
  });

  it('see small wheels and few sprockets in hills', () => {
    const folder = bike({ wheel: { kind: 'rim', beadSeatMm: 349 }, speeds: 7, terrain: 'hills' });
    expect(objectionsFor(folder, null)).toHaveLength(2);
  });
});
