import { describe, expect, it } from 'vitest';
import { assistCautions } from '../../src/card/assist.ts';
import { tandemCautions } from '../../src/card/tandem.ts';
import { roadPower } from '../../src/solve/climb.ts';
import { CLIMBING_MASSES } from '../../src/tables/climbing.ts';
import { cardText } from '../support/card-text.ts';
import { answered, asked, ring } from '../support/replies.ts';

const HARDTAIL = '2x10 36/22 11-36 29er hardtail 104bcd clutch stays=440mm chain=108';
/** Every command whose card leads to work on the drive, and gears, which sends people there. */
const COMMANDS = ['convert', 'mount', 'chain', 'chainline', 'torque', 'wear', 'gears'];
const ASSISTS = [
  ['e-bike', null],
  ['pedelec, mid-drive', 'mid-drive'],
  ['hub motor', 'hub'],
] as const;

function cautionsOf(setup: string, command: string): readonly string[] {
  return answered(`${setup} ring=32`, command).card.blocks.flatMap((each) =>
    each.kind === 'caution' ? [each.text] : [],
  );
}

describe('a bike with a motor', () => {
  it.each(COMMANDS)('has every caution on the card of %s, the battery before any work first', (command) => {
    for (const [words, where] of ASSISTS) {
      const wanted = assistCautions(where);
      const cautions = cautionsOf(`${HARDTAIL} ${words}`, command);
      expect(cautions).toEqual(expect.arrayContaining([...wanted]));
      const [first] = answered(`${HARDTAIL} ${words} ring=32`, command).card.blocks;
      expect(first).toMatchObject({ kind: 'caution', level: 'stop', text: wanted[0] });
    }
  });

  it('has none of them where none is told, or told to have no motor', () => {
    const motor = new Set(assistCautions(null));
    for (const words of ['', 'not an e-bike', 'no motor']) {
      for (const command of COMMANDS) {
        expect(cautionsOf(`${HARDTAIL} ${words}`, command).filter((each) => motor.has(each))).toEqual([]);
      }
      expect(answered(`${HARDTAIL} ${words}`).answer.assist).toBeUndefined();
    }
  });

  it('is told in the machine-readable answer, its place null while that is not known', () => {
    for (const [words, where] of ASSISTS) {
      const { assist } = answered(`${HARDTAIL} ${words}`).answer;
      expect(assist).toEqual({ where, countedInClimb: false, cautions: assistCautions(where) });
    }
  });

  it('is asked where its motor sits, and each answer ends the question', () => {
    const [question] = answered(`${HARDTAIL} e-bike`).asks;
    expect(question?.field).toBe('assist');
    for (const choice of question?.choices ?? []) {
      const after = answered(`${HARDTAIL} e-bike ${choice.setup}`);
      expect(after.asks.map((each) => each.field)).not.toContain('assist');
      expect(after.read.assist).toBe(choice.setup.replace('assist=', '').replace('!', ''));
    }
  });

  it('asks before anything else is known, with the cautions', () => {
    const reply = asked('can i go 1x on my ebike?');
    expect(reply.asks.map((each) => each.field)).toEqual(['assist', 'rings', 'cassette']);
    expect(cardText(reply.card)).toContain('battery out');
  });
});

describe('a motor at the cranks', () => {
  const told = `${HARDTAIL} mid-drive`;

  it('lets no ring simply fit, and says whose list decides', () => {
    const { answer, card } = answered(`${told} ring=32`);
    expect(answer.rings?.filter((each) => each.fit === 'fits')).toEqual([]);
    expect(ring(answered(`${told} ring=32`), 32).reasons[0]).toMatch(/maker of the drive unit/);
    expect(answer.objections?.[0]?.reason).toMatch(/drive unit maker lists it/);
    expect(card.answer).toMatch(/^32T, once its fit is checked/);
    expect(answered(told).card.answer).toMatch(/if the motor's maker lists it/);
    // The same crank without a motor takes it.
    expect(ring(answered(`${HARDTAIL} ring=32`), 32).fit).toBe('fits');
  });

  it('takes no mount for granted, a told circle or not, and asks for it', () => {
    const { answer, asks, assumed } = answered(told, 'mount');
    expect(answer.mount).toMatchObject({ mount: null, driveUnit: 'certain', bcdMm: 104, boltAdvice: 'ask' });
    expect(asks[0]?.field).toBe('mount');
    expect(assumed.map((each) => each.field)).not.toContain('sharing');
    const bolted = answered(`${told} mount=bolted`, 'mount');
    expect(bolted.answer.mount?.mount).toBe('bolted');
    expect(bolted.asks.map((each) => each.field)).not.toContain('mount');
    expect(answered('36/22 11-36 mid-drive', 'mount').answer.mount?.candidates).toEqual([]);
  });

  it('has one row for all its bolts, without a figure and with a second person', () => {
    const rows = answered(`${told} cranktype=pinch boltmaterial=steel`, 'torque').answer.torque ?? [];
    const [first] = rows;
    expect(first).toMatchObject({ lowNm: null, highNm: null });
    expect(first?.cautions.join()).toMatch(/second person/);
    expect(rows.filter((row) => /Ring bolts|Crank|Direct/.test(row.fastener))).toEqual([]);
    expect(answered(told, 'torque').card.answer).toMatch(/maker's figures only/);
  });

  it('changes the order of work: battery, its maker’s way, and no ordinary crank tool', () => {
    const text = cardText(answered(`${told} ring=32 cranktype=taper`).card);
    expect(text).toMatch(/Assist off, battery out/);
    expect(text).toMatch(/32T ring from the maker's list/);
    expect(text).not.toMatch(/Crank puller/);
    expect(cardText(answered(`${HARDTAIL} ring=32 cranktype=taper`).card)).toMatch(/Crank puller/);
  });
});

describe('a climb with a motor', () => {
  const told = `${HARDTAIL} power=200W`;

  it('counts the legs alone and says so', () => {
    const without = answered(`${told} rider=75kg bikeweight=23kg`);
    const hub = answered(`${told} rider=75kg bikeweight=23kg hub motor`);
    expect(hub.answer.climb).toEqual(without.answer.climb);
    expect(hub.answer.climb).toMatchObject({ assistCounted: false, riders: 1 });
    expect(cardText(hub.card)).toMatch(/assist is not counted/);
    expect(cardText(without.card)).not.toMatch(/assist is not counted/);
  });

  it('reckons with the weight of a bicycle that has a battery where none is told', () => {
    const assumed = answered(`${told} ebike`).assumed.find((each) => each.field === 'bikeweight');
    const { low, typical, high } = CLIMBING_MASSES.assistedBike;
    expect(assumed?.value).toBe(typical);
    expect(assumed?.basis).toContain(`${low} to ${high}`);
    expect(answered(told).assumed.find((each) => each.field === 'bikeweight')?.value).toBe(
      CLIMBING_MASSES.bike.typical,
    );
  });
});

describe('a tandem', () => {
  const told = 'tandem 48/38/28 11-34 28-622 stays=430mm 130bcd';

  it('gets its gears and its drive chain like any other bicycle', () => {
    const tandem = answered(told);
    const solo = answered(told.replace('tandem', ''));
    expect(tandem.answer.rings).toEqual(solo.answer.rings);
    expect(tandem.answer.chain).toEqual(solo.answer.chain);
    // 48/11 = 4.36 and 28/34 = 0.82.
    expect(tandem.answer.now?.highestRatio).toBeCloseTo(48 / 11, 6);
    expect(tandem.answer.now?.lowestRatio).toBeCloseTo(28 / 34, 6);
  });

  it.each(COMMANDS)('has its cautions on the card of %s, and what is not answered', (command) => {
    const { card, answer } = answered(`${told} ring=40`, command);
    const cautions = card.blocks.flatMap((each) => (each.kind === 'caution' ? [each.text] : []));
    expect(cautions).toEqual(expect.arrayContaining([...tandemCautions()]));
    expect(cardText(card)).toMatch(/Not answered: timing chain/);
    expect(cardText(card)).toMatch(/rear crank/);
    expect(answer.tandem).toMatchObject({ timingChain: 'not-covered', ridersCounted: 'together' });
    const solo = cardText(answered(`not a ${told} ring=40`, command).card);
    expect(solo).not.toMatch(/timing chain/);
  });

  it('speaks of both riders, and of no climb until both and the tandem are weighed', () => {
    const open = answered(`${told} power=350W`, 'gears');
    expect(open.answer.climb).toBeUndefined();
    expect(open.asks.map((each) => each.field)).toEqual(['rider', 'bikeweight']);
    const { answer, card, assumed } = answered(`${told} power=350W rider=150kg bikeweight=20kg`, 'gears');
    expect(answer.climb).toMatchObject({ riders: 2 });
    expect(assumed.map((each) => each.field)).not.toContain('rider');
    expect(cardText(card)).toMatch(/both riders and bicycle 170 kg/);
    expect(cardText(card)).not.toMatch(/weight of one rider only/);
    expect(cardText(answered(`${told} power=350W rider=75kg bikeweight=20kg`, 'gears').card)).toMatch(
      /weight of one rider only\? Tell both together/,
    );
    // Put back into the model, the slope takes the power that was told. Of the drag and rolling the card says which.
    const gradePct = answer.climb?.gradePct ?? 0;
    const speedMs = (answer.climb?.speedKmh ?? 0) / 3.6;
    const spent = roadPower({
      massKg: 170,
      speedMs,
      airSpeedMs: speedMs,
      gradePct,
      rollingCoefficient: 0.008,
      dragAreaM2: 0.5,
      change: null,
    });
    expect(spent.riderW).toBeCloseTo(350, 3);
  });

  it('is worked on at the rear crank, with the timing chain left alone', () => {
    const text = cardText(answered(`${told} ring=40`).card);
    expect(text).toMatch(/work at the rear crank, on the right/);
    expect(text).toMatch(/Timing chain, its two rings and the left arms stay as they are/);
  });
});

describe('uneven holes', () => {
  it('refuse a circle from one gap with the reason, and offer the labels that are made so', () => {
    const { answer, card, asks } = answered('36/22 11-36 4 bolts 73.5 mm apart, uneven', 'mount');
    expect(answer.mount).toMatchObject({ bcdMm: null, unevenPattern: true, candidates: [], smallestTeeth: null });
    expect(card.answer).toMatch(/one gap does not give the circle/);
    expect(asks[0]?.choices.map((each) => each.setup)).toEqual([
      'bcd=96 bolts=4 pattern=uneven',
      'bcd=104 bolts=4 pattern=uneven',
      'bcd=110 bolts=4 pattern=uneven',
    ]);
    expect(asks[1]?.field).toBe('gap');
    // The same gap on even holes is 104 mm.
    expect(answered('36/22 11-36 4 bolts 73.5 mm apart', 'mount').answer.mount?.bcdMm).toBe(104);
  });

  it('let no ring simply fit, ask for the maker’s pattern and say that spiders do not mix', () => {
    const reply = answered('36/22 11-36 104bcd 4 bolts asym ring=32');
    expect(ring(reply, 32)).toMatchObject({ fit: 'check' });
    expect(ring(reply, 32).reasons.join()).toMatch(/own pattern, which its maker names/);
    expect(cardText(reply.card)).toMatch(/Uneven spiders do not mix/);
    expect(cardText(answered('36/22 11-36 104bcd 4 bolts ring=32').card)).not.toMatch(/do not mix/);
  });

  it('show no spacing by equal angles, and from one gap of four the other', () => {
    // 104 · sin 45° = 73.5 is the even spacing; √(104² − 70²) = 76.9 the one beside a gap of 70.
    const text = cardText(answered('36/22 104bcd 4 bolts asym gap=70mm', 'mount').card);
    expect(text).not.toContain('73.5');
    expect(text).toMatch(/Beside a gap of 70 mm .* 76\.9 mm/);
    const { answer } = answered('36/22 4 bolts gap=70/77', 'mount');
    expect(answer.mount?.candidates).toMatchObject([{ bcdMm: 104, spacingMm: null }]);
  });

  it('told to be even are not asked about again', () => {
    expect(cardText(answered('36/22 104bcd 4 bolts', 'mount').card)).toMatch(/also made with uneven arms/);
    expect(cardText(answered('36/22 104bcd 4 bolts evenly spaced', 'mount').card)).not.toMatch(/uneven arms/);
  });
});

describe('two circles on one crank', () => {
  it.each([
    ['44/32/22 11-34 104/64', 104, 64],
    ['48/38/28 11-34 110/74 five arm', 110, 74],
    ['48/38/28 11-34 bcd=110/74', 110, 74],
    ['44/32/22 11-34 outer bcd 104, inner bcd 64', 104, 64],
  ])('of "%s" are both kept, said back, and the ring goes on the outer one', (line, outerMm, innerMm) => {
    for (const command of ['mount', 'convert']) {
      const { answer, card } = answered(line, command);
      expect(answer.mount).toMatchObject({ bcdMm: outerMm, innerBcdMm: innerMm });
      expect(card.readBack).toContain(`${outerMm} mm circle, inner circle ${innerMm} mm`);
      const text = cardText(card);
      expect(text).toContain(
        `Two circles, ${outerMm}/${innerMm}: the single ring goes on the outer one; the inner holes stay empty.`,
      );
      expect(text).toMatch(/carried the smallest ring\. It comes off; take its bolts out as well/);
    }
  });

  it('with only the inner one told leave the outer ones that go with it', () => {
    const { answer } = answered('44/32/22 11-34 granny bcd 74', 'mount');
    expect(answer.mount).toMatchObject({ bcdMm: null, innerBcdMm: 74 });
    expect(answer.mount?.candidates.map((each) => each.bcdMm)).toEqual([110, 130]);
  });

  it('say nothing of an inner circle that is not there', () => {
    const { answer, card } = answered('36/22 11-36 104bcd 4 bolts', 'mount');
    expect(answer.mount?.innerBcdMm).toBeNull();
    expect(cardText(card)).not.toMatch(/Two circles|The inner circle/);
  });
});
