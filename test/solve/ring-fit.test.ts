import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ringFit } from '../../src/solve/ring-fit.ts';
import { boltMarginMm, smallestRing } from '../../src/solve/smallest-ring.ts';
import { BOLT_CIRCLES } from '../../src/tables/bolt-circles.ts';

const crank = {
  mount: 'bolted',
  driveUnit: null,
  circles: [{ bcdMm: 104, bolts: 4 }],
  circlesAre: 'measured',
  unevenPattern: false,
  outerCirclesMm: [],
  maxRingTeeth: null,
  ovalityPct: null,
  largestRingTeeth: 44,
  cassetteProblems: [],
} as const satisfies Parameters<typeof ringFit>[0];

const kinds = (fit: ReturnType<ReturnType<typeof ringFit>>) => fit.reasons.map((reason) => reason.kind);

describe('the smallest ring by geometry', () => {
  // Least N with 12.7/sin(180°/N) − 7.75 − BCD ≥ 14, where nothing is printed.
  it.each([
    [120, 36],
    [96, 30],
    [94, 29],
    [88, 28],
    [80, 26],
    [76, 25],
  ])('on %i mm with four holes is %iT', (bcdMm, teeth) => {
    expect(smallestRing({ bcdMm, bolts: 4 })).toMatchObject({ teeth, from: 'geometry' });
  });

  it.each([
    [110, 34],
    [130, 38],
    [144, 42],
  ])('and even on %i mm is %iT', (bcdMm, evenTeeth) => {
    expect(smallestRing({ bcdMm, bolts: 5 }).evenTeeth).toBe(evenTeeth);
  });

  it('leaves more room the more teeth, and less the larger the circle', () => {
    fc.assert(
      fc.property(fc.integer({ min: 18, max: 69 }), fc.double({ min: 50, max: 160, noNaN: true }), (teeth, bcdMm) => {
        expect(boltMarginMm(teeth + 1, bcdMm)).toBeGreaterThan(boltMarginMm(teeth, bcdMm));
        expect(boltMarginMm(teeth, bcdMm + 0.1)).toBeLessThan(boltMarginMm(teeth, bcdMm));
      }),
    );
  });

  it('leaves every ordinary ring 13.4 mm or more', () => {
    for (const { bcdMm, bolts } of BOLT_CIRCLES) {
      expect(smallestRing({ bcdMm, bolts }).marginMm).toBeGreaterThan(13.4);
    }
  });
});

describe('a ring on 104 mm with four bolts', () => {
  const fitOf = ringFit(crank);

  // Valley of 26T: 12.7/sin(180°/26) − 7.75 = 105.36 − 7.75 = 97.61, inside the circle.
  it('of 26T cannot be, with the valley diameter', () => {
    const { fit, reasons } = fitOf(26);
    expect(fit).toBe('no');
    expect(reasons).toHaveLength(1);
    expect(reasons[0]).toMatchObject({ kind: 'no-room-for-bolts', bcdMm: 104 });
    if (reasons[0]?.kind === 'no-room-for-bolts') expect(reasons[0].valleyMm).toBeCloseTo(97.61, 2);
  });

  // 28T: 113.43 − 7.75 − 104 = 1.7 mm; 30T: 121.50 − 7.75 − 104 = 9.7 mm.
  it('of 28T cannot be, of 30T is special, of 32T fits', () => {
    expect(fitOf(28).fit).toBe('no');
    expect(fitOf(30)).toEqual({ fit: 'check', reasons: [{ kind: 'special-ring-only', bcdMm: 104 }] });
    expect(fitOf(32)).toEqual({ fit: 'fits', reasons: [] });
  });

  it('that is odd never fits', () => expect(kinds(fitOf(33))).toContain('odd-count'));

  it('larger than today still fits, with the clearance to check', () => {
    expect(fitOf(46)).toEqual({ fit: 'fits', reasons: [{ kind: 'larger-than-today', largestRingTeeth: 44 }] });
  });
});

describe('room in the frame', () => {
  it('refuses what is larger', () => {
    const fitOf = ringFit({ ...crank, maxRingTeeth: 34 });
    expect(fitOf(34).fit).toBe('fits');
    expect(kinds(fitOf(36))).toEqual(['frame-room']);
  });

  // 32 · (1 + 0.12/2) = 33.92; 34 · 1.06 = 36.04.
  it('counts an oval ring by its long axis', () => {
    const fitOf = ringFit({ ...crank, maxRingTeeth: 34, ovalityPct: 12 });
    expect(fitOf(32).fit).toBe('fits');
    expect(fitOf(34)).toMatchObject({ fit: 'no', reasons: [{ kind: 'frame-room', acrossTeeth: 36.04 }] });
  });
});

describe('an uncertain circle', () => {
  const usual = {
    ...crank,
    circlesAre: 'usual',
    circles: [
      { bcdMm: 104, bolts: 4 },
      { bcdMm: 130, bolts: 5 },
    ],
  } as const;

  it('that is only usual never gives more than a check, and names what would take the ring', () => {
    const fitOf = ringFit(usual);
    expect(fitOf(40).fit).toBe('check');
    expect(fitOf(34)).toMatchObject({
      fit: 'check',
      reasons: [{ kind: 'depends-on-circle', circles: [{ bcdMm: 104 }], special: false }],
    });
    expect(fitOf(30)).toMatchObject({ fit: 'check', reasons: [{ special: true }] });
    expect(fitOf(26)).toMatchObject({ fit: 'no', reasons: [{ kind: 'no-usual-circle' }] });
    expect(ringFit({ ...crank, circles: [] })(32).reasons).toEqual([{ kind: 'circle-unknown' }]);
  });

  it('that is one of two measured ones fits where both take the ring', () => {
    const fitOf = ringFit({ ...usual, circlesAre: 'measured' });
    expect(fitOf(40).fit).toBe('fits');
    expect(fitOf(34).fit).toBe('check');
    expect(fitOf(26).fit).toBe('no');
  });

  it('at a motor never simply fits: its maker decides, and where the motor sits may still be open', () => {
    const fitOf = ringFit({ ...crank, driveUnit: 'certain' });
    expect(fitOf(32)).toEqual({ fit: 'check', reasons: [{ kind: 'drive-unit', certain: true }] });
    expect(ringFit({ ...crank, driveUnit: 'possible' })(32).reasons).toEqual([{ kind: 'drive-unit', certain: false }]);
    // What cannot be on the spider cannot be there either.
    expect(fitOf(26).fit).toBe('no');
    // With nothing known of the spider no ordinary circle is held against it.
    const unknown = ringFit({ ...crank, mount: null, circles: [], circlesAre: 'usual', driveUnit: 'certain' });
    expect(unknown(26).reasons).toEqual([{ kind: 'drive-unit', certain: true }]);
  });

  it('with an uneven pattern, or an inner one, is a check', () => {
    expect(kinds(ringFit({ ...crank, unevenPattern: true })(32))).toEqual(['uneven-pattern']);
    const inner = { ...crank, circles: [{ bcdMm: 64, bolts: 4 }], outerCirclesMm: [104, 96] };
    expect(ringFit(inner)(32)).toMatchObject({ fit: 'check', reasons: [{ kind: 'inner-circle' }] });
  });
});

describe('without bolts', () => {
  it('a direct mount fits from 28T up with its own interface', () => {
    const fitOf = ringFit({ ...crank, mount: 'direct', circles: [] });
    expect(fitOf(32)).toEqual({ fit: 'fits', reasons: [{ kind: 'own-interface' }] });
    expect(fitOf(26).fit).toBe('check');
  });

  it('riveted rings are all refused', () => {
    const fitOf = ringFit({ ...crank, mount: 'riveted', circles: [] });
    for (const teeth of [20, 32, 60]) expect(fitOf(teeth).fit).toBe('no');
  });
});

describe('the cassette', () => {
  it('over a stated limit refuses every ring, over a typical one asks for a check', () => {
    const stated = { kind: 'largest-over', largestTeeth: 46, maxTeeth: 36 } as const;
    const typical = { kind: 'cage-over', needed: 35, cage: 'short', highTeeth: 32 } as const;
    expect(ringFit({ ...crank, cassetteProblems: [stated] })(32)).toEqual({ fit: 'no', reasons: [stated] });
    expect(ringFit({ ...crank, cassetteProblems: [typical] })(32)).toEqual({ fit: 'check', reasons: [typical] });
  });
});

it('never lets an odd ring, or one without 13.4 mm for its bolts, fit', () => {
  const circle = fc.record({
    bcdMm: fc.oneof(
      fc.constantFrom(...BOLT_CIRCLES.map((row) => row.bcdMm)),
      fc.double({ min: 50, max: 160, noNaN: true }),
    ),
    bolts: fc.constantFrom(3, 4, 5, null),
  });
  const circles = fc.array(circle, { minLength: 1, maxLength: 4 });
  const are = fc.constantFrom('measured' as const, 'usual' as const);
  fc.assert(
    fc.property(
      circles,
      are,
      fc.integer({ min: 18, max: 70 }),
      fc.boolean(),
      (some, circlesAre, teeth, unevenPattern) => {
        const { fit } = ringFit({ ...crank, circles: some, circlesAre, unevenPattern })(teeth);
        if (fit !== 'fits') return;
        expect(teeth % 2).toBe(0);
        expect(circlesAre).toBe('measured');
        expect(unevenPattern).toBe(false);
        for (const each of some) expect(boltMarginMm(teeth, each.bcdMm)).toBeGreaterThan(13.4);
      },
    ),
  );
});
