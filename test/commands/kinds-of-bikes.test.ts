import { describe, expect, it } from 'vitest';
import type { Card } from '../../src/card/card.ts';
import { cardText } from '../support/card-text.ts';
import { answered, asked } from '../support/replies.ts';

const HARDTAIL = '2x10 36/22 11-36 29er hardtail 104bcd clutch stays=440mm chain=108';
const ROAD = '50/34 11-32 700x28 rider=75kg bikeweight=9kg power=200W ring=42';
const BIKES = [
  HARDTAIL,
  ROAD,
  'hub motor 48/38/28 14-28 7 speed 700x40 riveted',
  'mid-drive 44/32 11-36 27.5x2.4 stays=450mm',
  'tandem 3x9 52/39/30 11-34 130/74 700x32 stays=430mm',
  '16-inch folder 52/39 11-32 ring=60',
  'fat bike 26x4.8 2x10 36/22 11-36 104/64 hub=190',
  '36/22 11-36 bcd=104.5',
  'full sus direct mount 2x11 36/26 11-42 boost longest=450mm chain=118',
];

/** Titles with nothing under them. */
function emptyTitles({ blocks }: Card): readonly string[] {
  return blocks.flatMap((block) => {
    const empty =
      (block.kind === 'text' && block.lines.length === 0) ||
      (block.kind === 'table' && block.rows.length === 0) ||
      (block.kind === 'checklist' && block.items.length === 0);
    return empty ? [block.title ?? ''] : [];
  });
}

describe('a card', () => {
  it.each(BIKES)('has something under every title: %s', (line) => {
    expect(emptyTitles(answered(line).card)).toEqual([]);
  });

  it('asks a hardtail nothing of rear suspension, and mentions it where nobody told', () => {
    expect(cardText(answered(HARDTAIL).card)).not.toContain('Rear suspension after all?');
    expect(cardText(answered(HARDTAIL.replace('hardtail', '')).card)).toContain('Rear suspension after all?');
  });

  it('says of what was understood and not used that it was not used, not that it was not understood', () => {
    expect(answered('fat bike 26x4.8 2x10 36/22 11-36').card.readBack).toContain('Not used: fat bike.');
  });
});

describe('a handlebar nobody told', () => {
  it('is the same in the climb as in the weight: a drop bar on a road bike', () => {
    for (const command of ['gears', 'convert']) {
      const { assumed } = answered(ROAD, command);
      expect(assumed.filter((each) => each.field === 'bar').map((each) => each.value)).toEqual(['drop']);
    }
    // On the hoods the wind takes less than upright, so the same legs climb a little more.
    const upright = answered(`${ROAD} bar=flat`).answer.climb?.gradePct ?? Number.NaN;
    expect(answered(ROAD).answer.climb?.gradePct).toBeGreaterThan(upright);
    expect(answered(ROAD).answer.climb).toEqual(answered(`${ROAD} bar=drop`).answer.climb);
  });
});

describe('a motor at the cranks', () => {
  it('has none of its bolts on the scale, and says so', () => {
    const { answer, card } = answered('mid-drive 44/32 11-36 104bcd stays=450mm ring=38');
    const parts = [...(answer.weight?.removed ?? []), ...(answer.weight?.added ?? [])].map((each) => each.part);
    expect(parts.filter((part) => /bolts/i.test(part))).toEqual([]);
    expect(cardText(card)).toContain('whatever holds the ring at the motor');
    expect(answered('mid-drive 44/32 ring=38', 'weight').asks.map((each) => each.field)).not.toContain('sharing');
    expect(cardText(answered(HARDTAIL).card)).not.toContain('at the motor');
  });
});

describe('a tandem', () => {
  it('is told to keep its rings in hills, before anything else is worked out', () => {
    const reasons = (line: string) => (answered(line).answer.objections ?? []).map((each) => each.reason).join();
    expect(reasons('tandem 44/32/22 11-34 104/64 hilly')).toContain('on a tandem, keep your rings');
    expect(reasons('tandem 3x9 52/39/30 11-34 130/74')).toContain('on a tandem, keep your rings');
    expect(reasons('tandem 2x11 52/36 11-40 hilly')).toBe('');
    expect(reasons('tandem 3x9 52/39/30 11-34 130/74 flat terrain')).toBe('');
  });
});

describe('uneven holes', () => {
  it('are in the list of parts as what decides, not the circle alone', () => {
    const text = cardText(answered('asym 96 bcd 4 arm 38/28 11-40 11 speed ring=32').card);
    expect(text).toContain("For this crank's own uneven pattern, 4 bolts: 96 mm alone is not enough.");
    expect(text).not.toContain('For a 96 mm bolt circle');
  });

  it('on five arms have no opposite holes to measure', () => {
    const text = cardText(answered('five arm uneven 110bcd 50/34', 'mount').card);
    expect(text).toContain('Told circle: 110 mm');
    expect(text).not.toContain('Opposite holes: 110 mm');
    expect(cardText(answered('four arm uneven 104bcd 36/22', 'mount').card)).toContain('Opposite holes: 104 mm');
  });
});

describe('a circle that cannot carry the ring of today', () => {
  // 36 teeth: 145.72 mm (printed) − 7.75 mm = 137.97 mm from valley to valley, bolt heads on 130 mm reach 141 mm.
  const misread = '36T is fitted today and cannot sit on a 130 mm circle';

  it.each(['convert', 'mount'])('is doubted on the card of %s before anything is bought', (command) => {
    expect(cardText(answered('36/22 11-36 130bcd 5 bolt', command).card)).toContain(misread);
    expect(cardText(answered('38/24 11-36 130bcd 5 bolt', command).card)).not.toContain('cannot sit on');
    expect(cardText(answered('30/22 11-36 104bcd 4 bolt', command).card)).not.toContain('cannot sit on');
  });
});

describe('a circle on no list', () => {
  it('is doubted by name, and one that is listed is not', () => {
    const doubt = 'no listed crank has that';
    expect(cardText(answered('36/22 11-36 bcd=108 4 bolts').card)).toContain(`108 mm, 4 bolts: ${doubt}`);
    expect(cardText(answered('36/22 bcd=104.5', 'mount').card)).toContain(`104.5 mm: ${doubt}`);
    for (const line of ['36/22 104bcd', '36/22 104bcd 4 bolts', '50/34 110bcd 5 bolts', '46/30 110bcd 4 bolts']) {
      expect(cardText(answered(line, 'mount').card)).not.toContain(doubt);
    }
  });
});

describe('an inner circle told alone', () => {
  it('is not the circle of the ring to buy', () => {
    const text = cardText(answered('44/32/22 11-34 64 bcd').card);
    expect(text).toContain('32T narrow-wide ring: Measure the bolt circle before you order.');
    expect(text).not.toContain('For a 64 mm bolt circle');
  });
});

describe('an allowance', () => {
  it('is asked of the maker where none is told, and not again where one is', () => {
    const line = '2x12 36/26 10-51 direct mount stays=450mm';
    expect(cardText(answered(line).card)).toContain('tell it as allowance=4');
    expect(cardText(answered(`${line} allowance=6`).card)).not.toContain('tell it as allowance');
  });
});

describe('an extension square to the wrench', () => {
  it('changes nothing, in words', () => {
    // T·L/(L + E·cos 90°) = T
    const square = cardText(answered('square taper wrench=300 extension=40 angle=90', 'torque').card);
    expect(square).toContain('your extension changes nothing: set the figure itself');
    // 300/(300 + 40) = 0.882
    const inLine = cardText(answered('square taper wrench=300 extension=40 angle=0', 'torque').card);
    expect(inLine).toContain('set 0.882 times the figure');
  });
});

describe('a hardtail with a rear shock', () => {
  it('is asked about in words a rider uses', () => {
    const { asks } = asked('2x10 hardtail 42/32, 140 mm rear shock');
    expect(asks.map((each) => each.question)).toContain(
      'No rear suspension and rear suspension are told. Which is right?',
    );
  });
});

describe('a ring that cannot be fitted', () => {
  it('is named once in its reason', () => {
    const text = cardText(answered('2x10 38/24 11-36 104bcd 29er to 28').card);
    expect(text).toContain('28T, no: its valley diameter is 105.7 mm');
  });
});

describe('the line of a ring at a motor', () => {
  it.each(['convert', 'chainline'])(
    'is its maker’s on the card of %s: nothing of ordinary cranks moves it',
    (command) => {
      for (const line of ['mid-drive 44/32 11-36 104bcd', 'mid-drive direct mount 38/28 11-42 offset=3mm']) {
        const text = cardText(answered(line, command).card);
        expect(text).toContain('only a ring of its maker with another offset moves it in');
        expect(text).toContain('The drive unit sets where its ring runs');
        expect(text).not.toMatch(/inner face of the same tabs|widespread family/);
      }
      const plain = cardText(answered('44/32 11-36 104bcd', command).card);
      expect(plain).toContain('the ring sits too far out: move it in.');
      expect(plain).toContain('On the inner face of the same tabs');
    },
  );
});

describe('a motor whose place is not told', () => {
  it('leaves the ring to buy to its maker, should it sit at the cranks', () => {
    const text = cardText(answered('ebike 44/32 11-36 104bcd ring=38').card);
    expect(text).toContain('For a 104 mm bolt circle, 4 bolts. At a motor only one its maker lists.');
    expect(cardText(answered('hub motor 44/32 11-36 104bcd ring=38').card)).not.toContain('At a motor only');
  });
});

describe('a gear in the hub', () => {
  it('is asked for the cassette beside it, and elsewhere left alone', () => {
    const [first] = asked('hub gear 8 speed internally geared hub 44/32').asks;
    expect(first).toMatchObject({ field: 'cassette', question: expect.stringContaining('beside the hub gear') });
    expect(answered('hub gear square taper', 'torque').asks.map((each) => each.field)).not.toContain('cassette');
  });
});

describe('small wheels', () => {
  const room = 'a long cage hangs near the ground';

  it('are told what a wide cassette needs besides teeth', () => {
    expect(cardText(answered('20 inch folder 2x8 53/39 11-32 stays=405mm').card)).toContain(room);
    expect(cardText(answered(HARDTAIL).card)).not.toContain(room);
  });
});
