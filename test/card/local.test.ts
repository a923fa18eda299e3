import { describe, expect, it } from 'vitest';
import { imperialFirst, withDecimalComma } from '../../src/card/local.ts';
import { length, mass, pitches, speed, torqueRange } from '../../src/card/measures.ts';

const card = (line: string) => ({ answer: line, readBack: '', lines: [line], blocks: [] });

describe('imperial first', () => {
  it.each([
    [length(440), '17.3 in (440 mm)'],
    [speed(42.6), '26.5 mph (42.6 km/h)'],
    [torqueRange(12, 15), '106–133 lbf·in (12–15 N·m)'],
    [mass(-358), '−12.6 oz (−358 g)'],
  ])('turns %s round', (metric, imperial) => {
    expect(imperialFirst(card(`before ${metric} after`)).lines).toEqual([`before ${imperial} after`]);
    expect(imperialFirst(card(metric)).answer).toBe(imperial);
  });

  it('leaves chain lengths alone, which are counted in pitches', () => {
    expect(imperialFirst(card(pitches(106))).answer).toBe('106 pitches (53 pairs, 1346.2 mm)');
  });
});

describe('decimal comma', () => {
  it('turns decimals and leaves what is copied into a setup line', () => {
    const told = {
      ...card('0.89 to 2.91, 1346.2 mm'),
      blocks: [
        { kind: 'actions', section: 'mount', title: '64.7 mm', actions: [{ label: '64.7 mm', setup: 'gap=64.7mm' }] },
      ],
    } as const;
    const turned = withDecimalComma(told);
    expect(turned.answer).toBe('0,89 to 2,91, 1346,2 mm');
    expect(turned.blocks[0]).toMatchObject({ title: '64,7 mm', actions: [{ label: '64,7 mm', setup: 'gap=64.7mm' }] });
  });
});
