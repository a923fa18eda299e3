import { describe, expect, it } from 'vitest';
import type { Bike } from '../../src/bike/bike.ts';
import { torque } from '../../src/commands/torque.ts';
import { answered, bike, torqueOf, wordsOf } from '../support/outcomes.ts';

const ask = (told: Bike) => torque.answer(bike(told));
const fasteners = (told: Bike) => torqueOf(ask(told)).map((row) => `${row.fastener}, ${row.material}`);

const KNOWN: Bike = { crankType: 'pinch', mount: 'bolted', boltMaterial: 'aluminium', bar: 'flat' };

describe('torque', () => {
  it('lists exactly the fasteners of the job', () => {
    expect(fasteners(KNOWN)).toEqual([
      'Ring bolts, aluminium',
      'Crank preload cap, plastic or aluminium',
      'Crank pinch bolts (two), steel',
      'Brake lever clamp, flat bar, hex screw, steel',
      'Brake lever clamp, flat bar, cross-head screw, steel',
      'Lock-on grip collar, steel screw',
      'Rear derailleur fixing bolt, steel or aluminium',
      'Rear derailleur cable anchor, steel',
    ]);
  });

  it('gives every row in both units', () => {
    for (const row of torqueOf(ask({}))) {
      if (row.lowNm === null || row.highNm === null) continue;
      // 1 N·m = 8.8507 lbf·in
      expect(Math.abs((row.lowInLbf ?? 0) - row.lowNm * 8.8507)).toBeLessThan(0.06);
      expect(Math.abs((row.highInLbf ?? 0) - row.highNm * 8.8507)).toBeLessThan(0.06);
    }
  });

  it('shows both materials with their conditions and asks, while the bolts are unknown', () => {
    const outcome = ask({ ...KNOWN, boltMaterial: undefined } as Bike);
    const rings = torqueOf(outcome).filter((row) => row.fastener === 'Ring bolts');
    expect(rings.map((row) => [row.lowNm, row.highNm])).toEqual([
      [8, 9],
      [12, 14],
    ]);
    expect(rings.every((row) => row.condition !== undefined)).toBe(true);
    expect(answered(outcome).asks.map((each) => each.field)).toContain('boltmaterial');
  });

  it('lists each kind of crank as a possibility and asks which it is', () => {
    const outcome = ask({ boltMaterial: 'steel' });
    const cranks = torqueOf(outcome).filter((row) => row.fastener.startsWith('Crank'));
    expect(cranks).toHaveLength(4);
    expect(cranks.every((row) => row.condition?.startsWith('if '))).toBe(true);
    expect(answered(outcome).asks[0]?.field).toBe('cranktype');
  });

  it('says that the two printed ranges for steel ring bolts do not meet', () => {
    const words = wordsOf(ask({ ...KNOWN, boltMaterial: 'steel' }));
    expect(words).toContain('12–14 N·m');
    expect(words).toContain('7.9–10.7 N·m');
    expect(words).toContain('the two do not meet');
    expect(wordsOf(ask(KNOWN))).not.toContain('Steel ring bolts');
  });

  it('has no figure but the maker’s for a direct-mount ring', () => {
    const [ring] = torqueOf(ask({ mount: 'direct' }));
    expect(ring).toMatchObject({ lowNm: null, highNm: null, lowInLbf: null, preloadN: null });
    expect(answered(ask({ mount: 'direct' })).words.answer).toContain("the maker's figure only");
  });

  it('has the lockring only with a new cassette', () => {
    const wider = { smallestTeeth: 11, largestTeeth: 46 };
    expect(fasteners({ ...KNOWN, newCassette: wider }).join()).toContain('Cassette lockring');
    expect(fasteners(KNOWN).join()).not.toContain('Cassette lockring');
  });

  it('keeps the front derailleur out of the job and under the way back', () => {
    expect(fasteners(KNOWN).join()).not.toContain('Front derailleur');
    const back = answered(ask(KNOWN)).words.blocks.find(
      (block) => block.kind === 'checklist' && block.title === 'Only when going back',
    );
    expect(JSON.stringify(back)).toContain('Front derailleur, band clamp, steel: 2.8–4 N·m (25–35 lbf·in)');
  });

  it('shows pull and share of proof load for solid steel bolts, and none for aluminium', () => {
    const rows = torqueOf(ask({ ...KNOWN, crankType: 'taper' }));
    const crank = rows.find((row) => row.fastener.startsWith('Crank bolt'));
    // 34/(0.20 · 0.008) = 21250 N; 44/(0.15 · 0.008) = 36667 N; over 21200 N: 173 %
    expect(crank?.preloadN?.lowN).toBeCloseTo(21250, 3);
    expect(crank?.preloadN?.highN).toBeCloseTo(36666.7, 1);
    expect(crank?.preloadN?.proofSharePct).toBeCloseTo(173, 0);
    expect(rows[0]?.preloadN).toBeNull();
  });

  it.each<[string, Bike]>([
    ['nothing told', {}],
    ['a known bike', KNOWN],
    ['riveted rings', { mount: 'riveted' }],
    ['a wrench with an extension', { ...KNOWN, wrenchMm: 300, extensionMm: 40 }],
  ])('ends with every safety word: %s', (_, told) => {
    const cautions = answered(ask(told)).words.blocks.flatMap((block) =>
      block.kind === 'caution' ? [block.text] : [],
    );
    const said = cautions.join(' ');
    expect(said).toContain("The figure on the part or in its maker's manual wins");
    expect(said).toContain('A number in chat is not a sign-off');
    expect(said).toContain('qualified mechanic');
    expect(said).toContain('local rules apply');
    expect(said).toContain('grease or threadlocker, not both');
    expect(said).toContain('two passes');
    expect(said).toContain('Stop if a bolt turns without getting tighter');
    expect(said).toContain('after the first ride');
    expect(answered(ask(told)).words.blocks.at(-1)?.kind).toBe('caution');
  });

  it('keeps the first line and the short lines within their limits for every bike', () => {
    for (const crankType of ['pinch', 'taper', 'splined', undefined] as const) {
      for (const mount of ['bolted', 'direct', 'riveted', undefined] as const) {
        for (const boltMaterial of ['steel', 'aluminium', undefined] as const) {
          const told = { crankType, mount, boltMaterial, wrenchMm: 300, extensionMm: 40 } as Bike;
          const { words, asks } = answered(ask(told));
          expect(words.answer.length).toBeLessThanOrEqual(120);
          expect(words.lines.length).toBeLessThanOrEqual(5);
          for (const line of words.lines) expect(line.length).toBeLessThanOrEqual(80);
          expect(asks.length).toBeLessThanOrEqual(3);
          for (const block of words.blocks) {
            if (block.kind !== 'table') continue;
            for (const row of block.rows) for (const cell of row) expect(cell.length).toBeLessThan(14);
          }
        }
      }
    }
  });
});

describe('torque with a wrench extension', () => {
  it('gives the factor and the setting of each row: 300/340 = 0.882, 12 · 0.882 = 10.6', () => {
    const { answer, assumed } = answered(ask({ ...KNOWN, wrenchMm: 300, extensionMm: 40, angleDeg: 0 }));
    expect(answer.wrench?.factor).toBeCloseTo(0.882, 3);
    const pinch = answer.wrench?.settings?.find((row) => row.fastener.includes('pinch'));
    expect(pinch?.lowNm).toBeCloseTo(10.59, 2);
    expect(assumed).toEqual([]);
  });

  it('says when it takes the extension as in line', () => {
    const { assumed } = answered(ask({ wrenchMm: 300, extensionMm: 40 }));
    expect(assumed).toEqual([{ field: 'angle', value: 0, basis: 'not said: extension in line' }]);
  });

  it('asks for the wrench when only the extension is told, and gives no factor', () => {
    const { answer, asks } = answered(ask({ extensionMm: 40 }));
    expect(answer.wrench).toBeUndefined();
    expect(asks[0]?.field).toBe('wrench');
  });

  it('refuses an extension that leaves no lever', () => {
    const outcome = ask({ wrenchMm: 300, extensionMm: 400, angleDeg: 180 });
    expect(outcome.kind).toBe('refused');
    expect(outcome.kind === 'refused' ? outcome.refusal.field : '').toBe('angle');
  });

  it('says that a straight socket extension changes nothing', () => {
    expect(wordsOf(ask({ wrenchMm: 300, extensionMm: 40 }))).toContain('A straight socket extension changes nothing');
  });
});
