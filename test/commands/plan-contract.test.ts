import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { COMMANDS } from '../../src/commands/list.ts';
import { ask } from '../../src/workbench.ts';
import { anyBike } from '../bike/any-bike.ts';
import { cardText } from '../support/card-text.ts';
import { planBike, planOf } from '../support/plan-bikes.ts';
import { answered } from '../support/replies.ts';

/** Every field that machines are promised; more fields are welcome, fewer are not. */
const number = z.number();
const orNull = number.nullable();
const range = {
  lowestRatio: number,
  highestRatio: number,
  rangePct: number,
  lowestSpeedKmh: orNull,
  highestSpeedKmh: orNull,
  lowestDevelopmentM: orNull,
  highestDevelopmentM: orNull,
};
const weighed = z.object({
  part: z.string().min(1),
  lowG: number,
  typicalG: number,
  highG: number,
  basis: z.enum(['published', 'calculated', 'common-practice', 'memory']),
});
const PARTS = {
  rings: z.array(
    z.object({
      teeth: number.int(),
      fit: z.enum(['fits', 'check', 'no']),
      reasons: z.array(z.string().min(1)),
      ...range,
      lowestChangePct: number,
      highestChangePct: number,
      cost: number.nonnegative(),
      recommended: z.boolean(),
    }),
  ),
  now: z.object(range),
  chain: z.object({
    gate: z.enum(['clear', 'measure-first']),
    wrapPitches: orNull,
    allowancePitches: number,
    targetPitches: orNull,
    targetPairs: orNull,
    targetMm: orNull,
    presentPitches: orNull,
    removePitches: orNull,
    addPitches: orNull,
    alternativeRulePitches: orNull,
  }),
  mount: z.object({
    driveUnit: z.enum(['certain', 'possible']).nullable(),
    bcdMm: orNull,
    innerBcdMm: orNull,
    unevenPattern: z.boolean(),
    bolts: orNull,
    candidates: z.array(z.object({ bcdMm: number, bolts: number, spacingMm: orNull })),
    smallestTeeth: orNull,
    smallestEvenTeeth: orNull,
    boltAdvice: z.enum(['reuse', 'shorter-or-spacer', 'ask']),
    spacerMm: orNull,
  }),
  chainline: z.object({
    frontMm: orNull,
    rearMm: orNull,
    offsetMm: orNull,
    sprockets: z.array(z.object({ teeth: number, offsetMm: number, angleDeg: orNull })),
    worstDeg: orNull,
    verdict: z.enum(['good', 'acceptable', 'poor']).nullable(),
  }),
  derailleur: z.object({
    capacityNeeded: number,
    capacityFits: z.boolean().nullable(),
    largestFits: z.boolean().nullable(),
  }),
  torque: z.array(
    z.object({
      fastener: z.string().min(1),
      material: z.string().min(1),
      lowNm: orNull,
      highNm: orNull,
      lowInLbf: orNull,
      highInLbf: orNull,
      basis: z.enum(['published', 'calculated', 'common-practice', 'memory']),
      source: z.string().min(1),
      cautions: z.array(z.string()),
    }),
  ),
  weight: z.object({
    removed: z.array(weighed),
    added: z.array(weighed),
    savedLowG: number,
    savedTypicalG: number,
    savedHighG: number,
  }),
  assist: z.object({
    where: z.enum(['hub', 'mid-drive']).nullable(),
    countedInClimb: z.literal(false),
    cautions: z.array(z.string().min(1)).min(1),
  }),
  tandem: z.object({
    timingChain: z.literal('not-covered'),
    ridersCounted: z.literal('together'),
    cautions: z.array(z.string().min(1)).min(1),
  }),
};
const Reply = z.object({
  command: z.literal('convert'),
  read: z.record(z.string(), z.unknown()),
  assumed: z.array(z.object({ field: z.string(), value: z.union([z.string(), number]), basis: z.string().min(1) })),
  asks: z.array(z.object({ field: z.string(), question: z.string().min(1) })).max(3),
  answer: z.object(PARTS).partial({ chain: true, weight: true, assist: true, tandem: true }),
  card: z.object({ answer: z.string().min(1).max(120), lines: z.array(z.string()).max(5) }),
});

/** What a machine gets: plain JSON, in which nothing but null says "unknown". */
const overTheWire = (reply: unknown): unknown => JSON.parse(JSON.stringify(reply));

/** Paths of numbers that JSON would have turned into null in silence. */
function notFinite(value: unknown, path = ''): readonly string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [path];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, each]) => notFinite(each, `${path}.${key}`));
}

const WHOLE =
  'rings=36/22 cassette=11-36 speeds=10 ring=32 bcd=104 bolts=4 stays=440mm chain=108 wheel=57-622 hub=142 ' +
  'chainline=49mm cranktype=pinch tandem=yes assist=hub';

describe('the machine-readable plan of a bike told whole', () => {
  const reply = answered(WHOLE);
  const { answer } = reply;

  it('has every field', () => {
    const parsed = Reply.safeParse(overTheWire(reply));
    expect(parsed.error?.issues).toBeUndefined();
    expect(Object.keys(answer)).toEqual(expect.arrayContaining(Object.keys(PARTS)));
  });

  // 2 · 440/12.7 + (32 + 36)/2 + 16/(4π² · 34.6) = 69.291 + 34 + 0.012 = 103.303; + 2, up to even: 106.
  it('has the chain in numbers', () => {
    expect(answer.chain).toMatchObject({
      gate: 'clear',
      allowancePitches: 2,
      targetPitches: 106,
      targetPairs: 53,
      targetMm: 1346.2,
      presentPitches: 108,
      removePitches: 2,
      addPitches: null,
      // 104 just fits, so the next even count above it.
      alternativeRulePitches: 106,
    });
    expect(answer.chain?.wrapPitches).toBeCloseTo(103.303, 3);
  });

  it('has the mount, the derailleur and who it speaks of', () => {
    expect(answer.speaksOf).toEqual({ teeth: 32, because: 'wanted' });
    expect(answer.mount).toMatchObject({ bcdMm: 104, bolts: 4, candidates: [], smallestTeeth: 32 });
    expect(answer.mount).toMatchObject({ smallestEvenTeeth: 32, boltAdvice: 'reuse', spacerMm: null });
    expect(answer.derailleur).toMatchObject({ capacityNeeded: 25, capacityFits: null, largestFits: null });
  });

  // 49 − 43; the largest sprocket lies 4.5 · 3.95 = 17.775 inside the middle: 6 + 17.775 = 23.775; atan(23.775/440) = 3.09°.
  it('has the chainline at every sprocket', () => {
    expect(answer.chainline).toMatchObject({ frontMm: 49, rearMm: 43, offsetMm: 6, verdict: 'acceptable' });
    expect(answer.chainline?.sprockets).toHaveLength(10);
    expect(answer.chainline?.sprockets.at(-1)?.teeth).toBe(36);
    expect(answer.chainline?.sprockets.at(-1)?.offsetMm).toBeCloseTo(23.775, 9);
    expect(answer.chainline?.worstDeg).toBeCloseTo(3.09, 2);
  });

  it('has gears with speeds and developments, and the torque of a pinch-bolt crank in both units', () => {
    for (const gear of [answer.now, ...(answer.rings ?? [])]) {
      expect(Object.values(gear ?? {})).not.toContain(null);
    }
    const pinch = answer.torque?.find((row) => row.fastener.includes('pinch'));
    expect(pinch).toMatchObject({ lowNm: 12, highNm: 15, lowInLbf: 106.2, highInLbf: 132.8, basis: 'published' });
  });
});

describe('the machine-readable plan with less told', () => {
  it('keeps every field, null where nobody knows, and never a number that is none', () => {
    fc.assert(
      fc.property(planBike, (bike) => {
        const reply = planOf(bike);
        expect(Reply.safeParse(overTheWire(reply)).error?.issues).toBeUndefined();
        expect(notFinite(reply)).toEqual([]);
        const { answer } = reply;
        if (bike.wheel === undefined) expect(answer.now?.lowestSpeedKmh).toBeNull();
        if (bike.bcdMm === undefined) expect(answer.mount).toMatchObject({ bcdMm: null, smallestTeeth: null });
        if (bike.chainlineMm === undefined) expect(answer.chainline).toMatchObject({ frontMm: null, offsetMm: null });
        if (bike.stayMm === undefined) expect(answer.chain?.targetPitches ?? null).toBeNull();
        if (bike.chainPitches === undefined) expect(answer.chain?.removePitches ?? null).toBeNull();
        if (bike.capacityTeeth === undefined) expect(answer.derailleur?.capacityFits).toBeNull();
        if (bike.maxSprocketTeeth === undefined) expect(answer.derailleur?.largestFits).toBeNull();
      }),
      { numRuns: 200 },
    );
  });

  it('uses a new cassette for the new gears and keeps the old one for those of now', () => {
    const { answer } = answered('36/22 11-36 newcassette=11-46 ring=32 104bcd stays=440mm');
    expect(answer.now?.lowestRatio).toBeCloseTo(22 / 36, 12);
    expect(answer.rings?.find((each) => each.teeth === 32)?.lowestRatio).toBeCloseTo(32 / 46, 12);
    expect(answer.chain).toMatchObject({ targetPitches: 112 });
    expect(answer.derailleur).toMatchObject({ capacityNeeded: 35, largestSprocketTeeth: 46 });
  });

  it.each(['can i go 1x?', '2x10 hardtail 42/32/24, 140 mm rear shock', 'ring=NaN', '', 'x'.repeat(10_000)])(
    'is a refusal with field, message, allowed and example where nothing can be planned: %.30j',
    (setup) => {
      const reply = ask({ command: 'convert', setup });
      const refusal = 'refusal' in reply ? reply.refusal : null;
      const text = z.string().min(1);
      const shape = z.object({ field: text, message: text, allowed: text, example: text });
      expect(shape.safeParse(refusal).error?.issues).toBeUndefined();
      expect('answer' in reply).toBe(false);
    },
  );
});

describe('any bike at all, contradictions included', () => {
  const asked = fc.constantFrom(...COMMANDS.map((command) => command.name));

  it('gets a calm reply from every command: short first lines, three questions at most, no number that is none', () => {
    const kinds = new Set<string>();
    fc.assert(
      fc.property(asked, anyBike, (command, known) => {
        const reply = ask({ command, setup: '', known });
        kinds.add(reply.kind);
        expect(reply.card.answer.length).toBeGreaterThan(0);
        expect(reply.card.answer.length, reply.card.answer).toBeLessThanOrEqual(120);
        expect(reply.card.lines.length).toBeLessThanOrEqual(5);
        expect(notFinite(reply)).toEqual([]);
        expect(cardText(reply.card)).not.toMatch(/\b(NaN|Infinity|undefined|null)\b|\[object/);
        if ('asks' in reply) expect(reply.asks.length).toBeLessThanOrEqual(3);
        if (reply.kind !== 'answered') return;
        for (const option of reply.answer.rings ?? []) {
          if (option.teeth % 2 !== 0) expect(option.fit).toBe('no');
        }
      }),
      // Chance alone leaves out now and then what is refused.
      { numRuns: 1200, examples: [['weight', { rings: [36, 22], mount: 'riveted' }]] },
    );
    expect([...kinds].sort()).toEqual(['answered', 'asks', 'refused']);
  });
});

describe('a command for one question', () => {
  const NAMES: Readonly<Record<string, keyof typeof PARTS>> = {
    gears: 'rings',
    chain: 'chain',
    mount: 'mount',
    chainline: 'chainline',
    torque: 'torque',
    weight: 'weight',
  };

  it.each(Object.entries(NAMES))('%s gives its own part under the name the plan has for it', (command, part) => {
    expect(COMMANDS.map((each) => each.name)).toContain(command);
    const { answer } = answered(WHOLE, command);
    expect(PARTS[part].safeParse(overTheWire(answer[part])).error?.issues).toBeUndefined();
  });

  it.each(['chain', 'mount', 'torque'] as const)('%s says what the plan says', (part) => {
    expect(answered(WHOLE, part).answer[part]).toEqual(answered(WHOLE).answer[part]);
  });

  it('weight says what the plan says, but for the pitches of chain that only the plan counts', () => {
    const chainOpen = WHOLE.replace('chain=108 ', '');
    expect(answered(WHOLE, 'weight').answer.weight).toEqual(answered(chainOpen).answer.weight);
  });
});
