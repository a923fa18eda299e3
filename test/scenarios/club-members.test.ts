import { describe, expect, it } from 'vitest';
import { cardText } from '../support/card-text.ts';
import { answered, asked, ring } from '../support/replies.ts';

const HILL_COUNTRY = 'hill-country hardtail 29er 2x10, 36/22, 11-36, 104 BCD, clutch on, stays 440 mm';

describe('hill-country hardtail, 2x10 on a 104 circle', () => {
  const reply = answered(HILL_COUNTRY);
  const text = cardText(reply.card);

  // 22/36 = 0.611, 36/11 = 3.273; 30/36 = 0.833 (+36.4 %), 32/36 = 0.889 (+45.5 %), 34/36 = 0.944 (+54.5 %).
  it.each([
    [30, 0.83, 2.73, 36],
    [32, 0.89, 2.91, 45],
    [34, 0.94, 3.09, 55],
  ])('gives %iT its ratios and its harder lowest gear', (teeth, lowest, highest, harder) => {
    const option = ring(reply, teeth);
    expect(option.lowestRatio).toBeCloseTo(lowest, 2);
    expect(option.highestRatio).toBeCloseTo(highest, 2);
    expect(Math.abs(option.lowestChangePct - harder)).toBeLessThanOrEqual(0.6);
    for (const fact of [`${teeth}T`, `${lowest}`, `+${harder} %`, `${highest}`]) expect(text).toContain(fact);
  });

  it('compares with the gears of today', () => {
    expect(reply.answer.now?.lowestRatio).toBeCloseTo(0.61, 2);
    expect(reply.answer.now?.highestRatio).toBeCloseTo(3.27, 2);
    expect(Math.round(reply.answer.now?.rangePct ?? 0)).toBe(536);
    expect(Math.round(ring(reply, 32).rangePct)).toBe(327);
    for (const fact of ['0.89', '0.61', '2.91', '3.27', '327 %', '536 %']) expect(text).toContain(fact);
  });

  it('offers 30T only as a special ring', () => {
    expect(ring(reply, 30).fit).toBe('check');
    expect(ring(reply, 30).reasons.join(' ')).toMatch(/special/);
    expect(ring(reply, 32).fit).toBe('fits');
    expect(ring(reply, 32).recommended).toBe(true);
  });

  it('targets 106 pitches and takes a pair out only if the chain of today has 108', () => {
    expect(reply.answer.chain?.targetPitches).toBe(106);
    expect(reply.answer.chain?.removePitches).toBeNull();
    expect(text).toMatch(/106 pitches \(53 pairs/);
    expect(text).toMatch(/108/);
    expect(answered(`${HILL_COUNTRY} chain=108`).answer.chain?.removePitches).toBe(2);
  });

  it('has a trial plan and a wider cassette as the way to keep the low gear', () => {
    expect(reply.answer.trial?.avoid.length).toBeGreaterThan(0);
    expect(reply.answer.widerCassettes?.length).toBeGreaterThan(0);
    expect(text).toMatch(/two weeks/);
  });
});

describe('26 in triple, 104/64', () => {
  const reply = answered('26in triple 44/32/22, 11-34, 104/64');
  const text = cardText(reply.card);

  it('puts a 32T on the outer circle with half the range', () => {
    const option = ring(reply, 32);
    expect(option.lowestRatio).toBeCloseTo(0.94, 2);
    expect(option.highestRatio).toBeCloseTo(2.91, 2);
    expect(Math.abs(option.lowestChangePct - 45)).toBeLessThan(0.6);
    expect(Math.round(option.rangePct)).toBe(309);
    expect(Math.round(reply.answer.now?.rangePct ?? 0)).toBe(618);
    for (const fact of ['0.94', '0.65', '+45 %', '2.91', '4.00', '309 %', '618 %']) expect(text).toContain(fact);
    expect(text).toMatch(/half the range/i);
    expect(reply.answer.mount?.bcdMm).toBe(104);
    expect(text).toMatch(/inner circle.*64 mm/);
  });

  it('asks about clutch and guide', () => {
    expect(text).toMatch(/clutch/i);
    expect(text).toMatch(/guide/i);
  });
});

describe('road compact, five bolts 64.7 mm apart', () => {
  const reply = answered('road compact 50/34, 11-32, five bolts 64.7 mm apart, 700x28, stays 410 chain=108 ring=42');
  const text = cardText(reply.card);

  it('derives the 110 circle', () => {
    expect(reply.answer.mount?.bcdMm).toBe(110);
    expect(reply.answer.mount?.smallestEvenTeeth).toBe(34);
  });

  // Circumference of 28-622: pi (622 + 56) = 2130.0 mm; 42/11 x 2.1300 m x 90 x 0.06 = 43.9 km/h, 50/11 gives 52.3.
  it('tells where it spins out', () => {
    expect(ring(reply, 42).lowestRatio).toBeCloseTo(1.31, 2);
    expect(reply.answer.now?.lowestRatio).toBeCloseTo(1.06, 2);
    expect(ring(reply, 42).highestSpeedKmh).toBeCloseTo(43.9, 1);
    expect(reply.answer.now?.highestSpeedKmh).toBeCloseTo(52.3, 1);
    expect(text).toMatch(/spins out at 43\.9 km\/h .*instead of 52\.3 km\/h/);
    expect(text).toMatch(/guide/i);
  });

  // 2 x 410 / 12.7 + (42 + 32)/2 + 0.04 = 101.6, + 2 = 103.6 -> 104; with 50T 105.6 + 2 + ... -> 108.
  it('shortens a chain of 108 to 104', () => {
    expect(reply.answer.chain?.targetPitches).toBe(104);
    expect(reply.answer.chain?.oldTargetPitches).toBe(108);
    expect(reply.answer.chain?.removePitches).toBe(4);
  });

  it.each([38, 40, 42, 44])('lets %iT fit', (teeth) => {
    expect(ring(reply, teeth).fit).toBe('fits');
  });
});

describe('"can i go 1x?"', () => {
  const reply = asked('can i go 1x?');
  const text = cardText(reply.card);

  it('asks at most three questions, gives an example and the free trial, and invents no numbers', () => {
    expect(reply.asks.length).toBeGreaterThan(0);
    expect(reply.asks.length).toBeLessThanOrEqual(3);
    for (const each of reply.asks) expect(each.choices.length, each.field).toBeGreaterThanOrEqual(2);
    expect(text).toMatch(/convert 2x10/);
    expect(text).toMatch(/two weeks/);
    expect(text).not.toMatch(/N·m|km\/h/);
  });
});

describe('16 in folder that wants a bigger ring', () => {
  const reply = answered('16-inch folder, 52/39, 11-32, want 60T, stays 400 chain=108');
  const text = cardText(reply.card);

  it('is valid and says what it costs', () => {
    expect(ring(reply, 60).lowestRatio).toBeCloseTo(1.875, 2);
    expect(ring(reply, 60).highestRatio).toBeCloseTo(5.45, 2);
    expect(Math.abs(ring(reply, 60).lowestChangePct - 54)).toBeLessThan(0.6);
    expect(text).toMatch(/clearance to the chainstay, on a folder to the fold too/);
  });

  it('asks which of the two 16 in wheels it is, and gives no speed before', () => {
    const [wheel] = reply.asks.filter((each) => each.field === 'wheel');
    expect(wheel?.choices.map((each) => each.setup)).toEqual(['wheel=305mm!', 'wheel=349mm!']);
    expect(ring(reply, 60).highestSpeedKmh).toBeNull();
  });

  // 47-305 rolls 1195 mm by the chart: 60/11 · 1.195 · 90 · 0.06 = 35.2 km/h, and 52/11 gives 30.5.
  it('is faster with 60T once the tyre is known', () => {
    const told = answered('16-inch folder, 52/39, 11-32, want 60T, stays 400 chain=108 wheel=47-305');
    expect(ring(told, 60).highestSpeedKmh).toBeCloseTo(35.2, 1);
    expect(told.answer.now?.highestSpeedKmh).toBeCloseTo(30.5, 1);
  });

  it('adds to the chain instead of taking out', () => {
    expect(reply.answer.chain?.targetPitches).toBe(112);
    expect(reply.answer.chain?.removePitches).toBeNull();
    expect(reply.answer.chain?.addPitches).toBe(4);
    expect(text).toMatch(/add/i);
  });
});

describe('full suspension, measured at its longest', () => {
  const line = 'full sus 36/26, 11-42 → 32T, stays 435, 452 at longest';
  const reply = answered(line);
  const text = cardText(reply.card);

  it('sizes at the longest and shows the growth', () => {
    expect(reply.answer.chain?.targetPitches).toBe(112);
    expect(reply.answer.chain?.growthMm).toBe(17);
    expect(reply.answer.chain?.growthPitches).toBeCloseTo(2.7, 1);
    expect(text).toMatch(/17 mm, 2\.7 pitches/);
  });

  it('would be two pairs too short by the stays at rest', () => {
    const atRest = answered('hardtail 36/26, 11-42 → 32T, stays 435').answer.chain?.targetPitches;
    expect(Number(reply.answer.chain?.targetPitches) - Number(atRest)).toBe(4);
  });

  it('cuts nothing without the measurement', () => {
    const gated = answered('full sus 36/26, 11-42 → 32T, stays 435 chain=116');
    expect(gated.answer.chain?.gate).toBe('measure-first');
    for (const field of [
      'wrapPitches',
      'targetPitches',
      'removePitches',
      'addPitches',
      'alternativeRulePitches',
    ] as const) {
      expect(gated.answer.chain?.[field], field).toBeNull();
    }
    const words = cardText(gated.card);
    expect(words).toMatch(/stop: /);
    expect(words).toMatch(/air out of the shock/);
    expect(words).toMatch(/where it is furthest: longest=/);
    expect(words).not.toMatch(/(take out|remove) \d/i);
  });
});

describe('chain joined with a pin', () => {
  const reply = answered('36/22 11-36 2x10 104bcd stays 440, no quick link, joined with a pin');
  const text = cardText(reply.card);

  it('does not use the pin again', () => {
    expect(reply.read.join).toBe('pin');
    expect(text).toMatch(/never press a pushed-out pin back in/i);
    expect(text).toMatch(/joining link .*or the special pin/);
    expect(text).toMatch(/made for 10-speed/);
    expect(text).toMatch(/needs two inner ends/);
    expect(text).toMatch(/a loop is even/);
    expect(Number(reply.answer.chain?.targetPitches) % 2).toBe(0);
  });
});
