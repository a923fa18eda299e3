import { describe, expect, it } from 'vitest';
import { cardText } from '../support/card-text.ts';
import { answered } from '../support/replies.ts';

const BIKE = '2x10 36/22 11-36 104bcd stays=440mm chain=110';

describe('the first lines of a plan', () => {
  it('say that a wanted ring needs a check, and why, before its gears', () => {
    const { card } = answered(`${BIKE} ring=30`);
    expect(card.answer).toContain('30T, once its fit is checked');
    expect(card.lines[0]).toMatch(/^30T, check first: on 104 mm only as a special ring/);
  });

  it('say that an odd ring is odd, not that it does not fit', () => {
    expect(answered(`${BIKE} ring=33`).card.answer).toMatch(/^33T is odd, so not narrow-wide; 32T/);
  });

  it('put a new chain on instead of cutting a worn one', () => {
    const { card } = answered(`${BIKE} wear=0.8`);
    const text = cardText(card);
    expect(card.answer).toContain('new chain, 106 pitches');
    expect(card.lines.join('\n')).toContain('Chain 0.8 % worn: replace the chain.');
    expect(card.lines.join('\n')).not.toContain('take out');
    expect(text).toContain('Cut the new chain to 106 pitches');
  });

  it('name the way out where the derailleur does not take the cassette, and the plan beyond it', () => {
    const { card, asks } = answered(`${BIKE} newcassette=11-42 maxcog=36`);
    expect(card.answer).toBe("Not with this rear derailleur: 42T is over the derailleur's largest, 36T.");
    expect(card.lines[0]).toBe(
      'It takes a rear derailleur for 42T and 31 teeth of capacity, or the cassette of today.',
    );
    expect(card.lines[1]).toMatch(/^Gears: /);
    expect(asks.map((each) => each.field)).not.toContain('capacity');
  });

  it('of riveted rings send for another crank and ask nothing yet', () => {
    const { card, asks } = answered('3x8 42/32/22 11-32 riveted');
    expect(card.answer).toMatch(/new crank/);
    expect(card.lines.length).toBeGreaterThan(1);
    expect(asks).toEqual([]);
  });
});

describe('the terrain', () => {
  it('is asked for first where sizes tie, and not once it is told', () => {
    expect(answered(BIKE).asks[0]).toMatchObject({
      field: 'terrain',
      question: '32T to 36T all give up the same in sum. What do you ride most?',
    });
    for (const told of ['terrain=rolling', 'terrain=hills', 'ring=32']) {
      expect(answered(`${BIKE} ${told}`).asks.map((each) => each.field)).not.toContain('terrain');
    }
  });
});

describe('what a plan assumes', () => {
  it('is said once each', () => {
    const fields = answered(`${BIKE} power=250 rider=80kg bikeweight=13kg wheel=57-622`).assumed.map(
      (each) => each.field,
    );
    expect(new Set(fields).size).toBe(fields.length);
  });
});
