import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Bike } from '../../src/bike/bike.ts';
import type { SettledBike } from '../../src/bike/settled.ts';
import { settle } from '../../src/bike/settled.ts';
import type { Block } from '../../src/card/card.ts';
import { chainBlocks, chainHeadline, chainLines, chainSection } from '../../src/card/chain.ts';
import { chainPart } from '../../src/commands/chain.ts';
import { cardText } from '../support/card-text.ts';

const BIKE: Bike = { rings: [36, 22], cassette: { smallestTeeth: 11, largestTeeth: 36 }, speeds: 10, stayMm: 440 };

type Said = {
  readonly headline: string;
  readonly lines: readonly string[];
  readonly blocks: readonly Block[];
  readonly text: string;
};

function say(bike: Bike, ringTeeth = 32): Said {
  const settled: SettledBike = settle(bike).bike;
  const part = chainPart(settled, ringTeeth);
  if (part === null) throw new Error('no cassette');
  const headline = chainHeadline(part, settled);
  const lines = chainLines(part, settled);
  const blocks = chainBlocks(part, settled);
  return { headline, lines, blocks, text: cardText({ answer: headline, readBack: '', lines, blocks }) };
}

const bikes: fc.Arbitrary<Bike> = fc.record(
  {
    rings: fc.constantFrom([36, 22], [50, 34], [44, 32, 22], [32]),
    cassette: fc.record({
      smallestTeeth: fc.integer({ min: 9, max: 14 }),
      largestTeeth: fc.integer({ min: 21, max: 52 }),
    }),
    speeds: fc.integer({ min: 5, max: 13 }),
    stayMm: fc.integer({ min: 300, max: 800 }),
    longestMm: fc.integer({ min: 300, max: 850 }),
    suspension: fc.constantFrom('none', 'rear'),
    chainPitches: fc.integer({ min: 60, max: 260 }),
    allowancePitches: fc.constantFrom(2, 4, 6),
    join: fc.constantFrom('link', 'pin'),
    clutch: fc.boolean(),
    ovalityPct: fc.integer({ min: 0, max: 30 }),
  },
  { requiredKeys: ['cassette', 'rings'] },
);

describe('the words about a chain', () => {
  it('put target and what comes out in the first line, in pitches, pairs and mm', () => {
    expect(say({ ...BIKE, chainPitches: 108 }).headline).toBe(
      'Chain for 32T × 36T: 106 pitches (53 pairs, 1346.2 mm). Take out 2 pitches (1 pair, 25.4 mm).',
    );
  });

  it('say so when the chain is right already', () => {
    expect(say({ ...BIKE, chainPitches: 106 }).headline).toContain('nothing comes out');
  });

  it('keep to their limits for any bike', () => {
    fc.assert(
      fc.property(bikes, fc.integer({ min: 18, max: 70 }), (bike, ringTeeth) => {
        const { headline, lines, blocks } = say(bike, ringTeeth);
        expect(headline.length).toBeLessThanOrEqual(120);
        expect(lines.length).toBeLessThanOrEqual(5);
        for (const line of lines) expect(line.length).toBeLessThanOrEqual(80);
        for (const block of blocks) {
          if (block.kind !== 'table') continue;
          for (const row of block.rows) {
            expect(row.length).toBe(block.columns.length);
            for (const cell of row) expect(cell.length).toBeLessThan(14);
          }
        }
      }),
    );
  });

  it('never call a count links, and never say undefined, NaN or null', () => {
    fc.assert(
      fc.property(bikes, fc.integer({ min: 18, max: 70 }), (bike, ringTeeth) => {
        expect(say(bike, ringTeeth).text).not.toMatch(/\d links?\b|undefined|NaN|null|Infinity/);
      }),
    );
  });

  it('leave no count to cut by while the gate is shut', () => {
    fc.assert(
      fc.property(bikes, (bike) => {
        const { longestMm, ...rest } = bike;
        const shut = say({ ...rest, suspension: 'rear' });
        expect(shut.text).not.toMatch(/\d+(\.\d+)? (pitch|pair)|(take out|remove|add) \d/i);
        expect(shut.blocks[0]).toMatchObject({ kind: 'caution', level: 'stop' });
        expect(shut.text).toContain('Do not cut');
      }),
    );
  });

  it('begin with the stop caution, open or shut', () => {
    for (const bike of [BIKE, { ...BIKE, suspension: 'rear' } as const]) {
      expect(say(bike).blocks[0]).toMatchObject({ kind: 'caution', level: 'stop' });
    }
  });

  it('give the nearest boundary, rounded to the far side of it', () => {
    // bare wrap 104 at 444.43 mm
    expect(say(BIKE).text).toContain('From 444.5 mm (17.5 in) stays on, two pitches more.');
  });

  it('say how near an edge the sum is: 34 × 51 at 440 mm lies three thousandths over', () => {
    const { lines } = say({ ...BIKE, newCassette: { smallestTeeth: 11, largestTeeth: 51 } }, 34);
    expect(lines).toContain('On the edge: 0.003 pitch less and a pair fewer would do. Check on the bike.');
  });

  it('say so just under the edge too', () => {
    // 444.3 mm is 0.126 mm short of the boundary at 444.426: 2 × 0.126/12.7 = 0.020 pitch
    const { lines } = say({ ...BIKE, stayMm: 444.3 });
    expect(lines).toContain('On the edge: the sum is within 0.02 pitch of the next pair. Check on the bike.');
  });

  it('name the second rule where it differs and that the maker wins', () => {
    // bare wrap 108.435: + 2 is 112 by the first; 109 just fits, so 110 by the second
    const { lines } = say({ ...BIKE, newCassette: { smallestTeeth: 11, largestTeeth: 46 } });
    expect(lines).toContain("A second printed rule gives 110; your derailleur maker's figure wins over both.");
  });

  it('tell what half the tooth change frees', () => {
    expect(say(BIKE).text).toContain('4 teeth fewer free 2 pitches; in whole pairs, 1 pair out.');
    expect(say(BIKE, 30).text).toContain('6 teeth fewer free 3 pitches; in whole pairs, 1 pair out.');
  });

  it('show the approximation and the exact wrap with the rider’s numbers', () => {
    const working = say(BIKE).blocks.find((block) => block.kind === 'working');
    const steps = working?.kind === 'working' ? working.steps : [];
    expect(steps.find((step) => step.quantity === 'Bare wrap')).toMatchObject({
      numbers: 'N = 32, n = 36, C = 440/12.7 = 34.646, all in pitches',
      result: '103.303 pitches',
    });
    expect(steps.find((step) => step.quantity.startsWith('The textbook'))?.result).toBe('103.303 pitches');
    for (const step of steps) expect(step.source).not.toBe('');
  });
});

describe('the words about joining', () => {
  it('forbid the old pin, and list what takes its place, for a chain joined with a pin', () => {
    const { text } = say({ ...BIKE, join: 'pin' });
    expect(text).toContain('care: Never press a pushed-out pin back in');
    expect(text).toContain('a joining link for these speeds, or the special pin');
    expect(text).toContain('two inner ends');
  });

  it('call joining links single-use from 10-speed on', () => {
    expect(say({ ...BIKE, speeds: 11 }).text).toContain('Makers call 11-speed joining links single-use');
    expect(say({ ...BIKE, speeds: 9 }).text).toContain('Joining links up to 9-speed may go back on');
  });

  it('warn that a 5- to 8-speed chain rides loose on a narrow-wide ring', () => {
    expect(say({ ...BIKE, speeds: 8 }).text).toContain('rides loose');
    expect(say({ ...BIKE, speeds: 9 }).text).not.toContain('rides loose');
  });

  it('leave the clutch out only for a derailleur without one', () => {
    expect(say({ ...BIKE, clutch: true }).text).toContain('off before joining, on again after');
    expect(say({ ...BIKE, clutch: false }).text).not.toContain('off before joining');
  });
});

describe('the chain as a section of a plan', () => {
  function section(told: Bike, chainWorn = false): { readonly blocks: readonly Block[]; readonly text: string } {
    const settled = settle(told).bike;
    const part = chainPart(settled, 32);
    if (part === null) throw new Error('no cassette');
    const blocks = chainSection(part, settled, chainWorn);
    return { blocks, text: cardText({ answer: '', readBack: '', lines: [], blocks }) };
  }

  it('keeps the cautions first and has the length in it', () => {
    const { blocks, text } = section({ ...BIKE, chainPitches: 108 });
    expect(blocks[0]).toMatchObject({ kind: 'caution', level: 'stop' });
    expect(text).toContain('106 pitches (53 pairs, 1346.2 mm). Take out 2 pitches (1 pair, 25.4 mm).');
    expect(text).toContain('Bare wrap 103.30 pitches on 440 mm');
    expect(blocks.every((block) => block.section === 'chain')).toBe(true);
  });

  it('leaves a worn chain whole and cuts the new one', () => {
    const { text } = section({ ...BIKE, chainPitches: 108 }, true);
    expect(text).toContain('106 pitches (53 pairs, 1346.2 mm).');
    expect(text).toContain('leave it whole, and cut the new one to this length');
    expect(text).not.toMatch(/Take out|Yours has/);
  });

  it('names the disagreement, and leaves the table of it to the command', () => {
    // 103.303 + 4 is 107.3, so 108; + 6 is 109.3, so 110.
    const { blocks, text } = section(BIKE);
    expect(text).toContain('Printed rules disagree: +4 gives 108, +6 gives 110.');
    expect(text).toContain("Your derailleur maker's figure wins");
    expect(blocks.some((block) => block.kind === 'table')).toBe(false);
  });

  it('says how to measure instead, and names no count, while the gate is shut', () => {
    const { stayMm: _, ...unmeasured } = BIKE;
    for (const told of [unmeasured, { ...BIKE, suspension: 'rear' } as const]) {
      const { text } = section({ ...told, chainPitches: 108 });
      expect(text).toMatch(/axle/);
      expect(text).toContain('Nothing comes out of the chain before that.');
      expect(text).not.toMatch(/\d+(\.\d+)? (pitch|pair)|(take out|remove|add) \d/i);
    }
  });
});
