import { describe, expect, it } from 'vitest';
import { ask } from '../../src/workbench.ts';
import { cardText } from '../support/card-text.ts';
import { answered, asked, refused } from '../support/replies.ts';

describe('26T narrow-wide on 104', () => {
  it('is refused with the geometry and what would work', () => {
    const reply = refused('26T narrow-wide on 104');
    const text = cardText(reply.card);
    expect(text).toContain('97.6');
    expect(text).toContain('104');
    expect(text).toContain('32');
    expect(text).toMatch(/30/);
    expect(text).toMatch(/cassette/);
    expect(text).toMatch(/crank/);
  });

  it('with the whole bike told, plans the ring that fits and says why not 26', () => {
    const reply = answered('2x10 36/22 11-36 104bcd 29er hardtail stays 440 ring=26');
    const wanted = reply.answer.rings?.find((each) => each.teeth === 26);
    expect(wanted?.fit).toBe('no');
    expect(wanted?.reasons.join(' ')).toContain('97.6');
    expect(reply.answer.speaksOf).toEqual({ teeth: 32, because: 'wanted-cannot-fit' });
    expect(reply.card.answer).toMatch(/26T/);
  });
});

describe('a frame without room for any ring the crank takes', () => {
  it('is told so first, whatever the wanted ring would do to the gears', () => {
    const reply = answered('36/22 11-36 ring=32 maxring=28 104bcd stays 440');
    expect(reply.card.answer).toBe('32T cannot be fitted, nor any other single ring on this bike as told.');
    expect(reply.answer.rings?.every((each) => each.fit === 'no')).toBe(true);
  });
});

describe('33T narrow-wide', () => {
  it('is refused because an odd ring cannot alternate', () => {
    const text = cardText(refused('33T narrow-wide please').card);
    expect(text).toMatch(/odd/);
    expect(text).toMatch(/32/);
    expect(text).toMatch(/34/);
    expect(text).toMatch(/plain/);
  });

  it('stays refused with the whole bike told', () => {
    const reply = answered('2x10 36/22 11-36 104bcd ring=33');
    expect(reply.answer.rings?.find((each) => each.teeth === 33)?.fit).toBe('no');
    expect(reply.answer.speaksOf?.teeth).toBe(32);
  });
});

describe('2x10 hardtail with three rings and a rear shock', () => {
  it('names both conflicts and plans nothing', () => {
    const reply = asked('2x10 hardtail 42/32/24, 140 mm rear shock');
    const fields = reply.asks.map((each) => each.field);
    expect(fields).toContain('rings');
    expect(fields).toContain('suspension');
    expect(reply.asks.every((each) => each.choices.length >= 2)).toBe(true);
    expect('answer' in reply).toBe(false);
  });
});

describe('the same bike in other spellings', () => {
  const told = answered('2x10 36/22 11-36');
  it.each([
    ['typographic', '2×10 · 22–36T, 36−11'],
    ['key=value with commas', 'speeds=10 rings=36,22 cassette=11/36'],
    ['Arabic-Indic digits', '٢×١٠ ٣٦/٢٢ ١١-٣٦'],
  ])('%s gives the same bytes', (_, line) => {
    expect(JSON.stringify(answered(line))).toBe(JSON.stringify(told));
  });
});

describe('a ring that cannot be, on a bike of which little is known', () => {
  // 27T and 28T have no room on 104 either; 40T and a frame with room for 34T; on 104 a frame with room for 30T.
  it.each([
    ['26T narrow-wide on 104', 'ring=32'],
    ['27T narrow-wide on 104', 'ring=32'],
    ['33T narrow-wide please', 'ring=32'],
    ['ring=40 maxring=34', 'ring=34'],
    ['ring=40 bcd=104 maxring=30', 'ring=30'],
  ])('"%s" is refused with an example that is not', (line, example) => {
    expect(refused(line).refusal.example).toBe(example);
    expect(ask({ command: 'convert', setup: `${line} ${example}!` }).kind).not.toBe('refused');
  });

  it('with riveted rings is told that the crank goes first, and asked for the rest', () => {
    expect(cardText(asked('ring=32 mount=riveted').card)).toMatch(/new crank/);
  });
});

describe('a wider cassette than the mech takes, and nothing else', () => {
  const text = cardText(asked('add 11-46, mech says max 36, short cage; 32T').card);

  it('shows two separate fails, blames neither on the ring, and warns of the gap screw', () => {
    expect(text).toMatch(/46T is over the derailleur's largest, 36T/);
    expect(text).toMatch(/35 teeth.* short cage usually has 32/);
    expect(text).toMatch(/gap screw/);
    expect(text).not.toMatch(/32T cannot|32T: /);
  });
});

describe('a wider cassette than the mech takes', () => {
  const reply = answered('36/22 11-36 2x10 104bcd add 11-46, mech says max 36, short cage; 32T stays 440');
  const text = cardText(reply.card);

  it('shows two separate fails', () => {
    expect(reply.answer.derailleur).toMatchObject({ capacityNeeded: 35, largestSprocketTeeth: 46, largestFits: false });
    expect(reply.answer.derailleur?.capacityFits).toBe(false);
    expect(text).toContain('46');
    expect(text).toContain('35');
    expect(text).toMatch(/gap/);
  });

  it('still sizes the chain for the ring that was asked for', () => {
    expect(reply.answer.speaksOf?.teeth).toBe(32);
    expect(reply.answer.chain?.targetPitches).toBe(112);
  });
});
