import { describe, expect, it } from 'vitest';
import { measureTopic } from '../../src/card/measure.ts';
import { ask } from '../../src/workbench.ts';
import { cardText } from '../support/card-text.ts';
import { TOPICS } from '../support/pictures.ts';
import { answered, asked } from '../support/replies.ts';

describe('measure', () => {
  it.each(TOPICS)('%s has an answer of at most 120 characters, three steps, one picture and what to tell', (topic) => {
    const { card } = answered(topic, 'measure');
    expect(card.answer.length).toBeLessThanOrEqual(120);
    expect(card.lines[0]).toMatch(/^Then tell it: \S+=/);
    expect(card.blocks.map((block) => block.kind)).toEqual(['checklist', 'figure']);
    const [steps] = card.blocks;
    expect(steps?.kind === 'checklist' && steps.items).toHaveLength(3);
  });

  it.each(TOPICS)('%s tells values that the reader of setup lines understands', (topic) => {
    const told = answered(topic, 'measure').card.lines[0]?.replace('Then tell it: ', '') ?? '';
    for (const one of told.split(', or ')) {
      const reply = ask({ command: 'mount', setup: one.replace(/^.*: /, '') });
      expect(reply.kind, one).not.toBe('refused');
      expect(reply.kind === 'refused' ? [] : reply.unread, one).toEqual([]);
    }
  });

  it('alone offers every topic', () => {
    const text = cardText(answered('', 'measure').card);
    for (const topic of TOPICS) expect(text).toContain(`measure ${topic}`);
  });

  it('understands what people call the things', () => {
    const answer = (words: string) => answered(words, 'measure').card.answer;
    expect(answer('the bolt circle')).toBe(answer('bcd'));
    expect(answer('GAP')).toBe(answer('bcd'));
    expect(answer('chainstay')).toBe(answer('stays'));
  });

  it('refuses what it cannot measure by naming what it can, and repeats at most 40 characters', () => {
    const reply = ask({ command: 'measure', setup: 'x'.repeat(10_000) });
    expect(reply.kind).toBe('refused');
    if (reply.kind !== 'refused') return;
    expect(reply.refusal.message.length).toBeLessThan(90);
    for (const topic of TOPICS) expect(reply.refusal.allowed).toContain(topic);
  });
});

describe('a question about something to measure', () => {
  it.each(['bcd', 'gap', 'bolts', 'chainline', 'stays', 'longest', 'chain', 'wear'] as const)(
    'has a topic that teaches it: %s',
    (field) => {
      expect(TOPICS).toContain(measureTopic(field));
    },
  );

  it('says how to measure on the card that asks, each topic once', () => {
    const text = cardText(answered('36/22 11-36 speeds=10 full sus').card);
    const pointers = text.split('\n').filter((line) => line.startsWith('How to measure, with a picture:'));
    expect(pointers).toHaveLength(1);
    expect(pointers[0]).toContain('measure longest');
  });

  it('says so too where nothing could be planned', () => {
    expect(cardText(asked('36/22', 'chain').card)).toContain('measure stays');
  });

  it('says nothing of measuring where there is nothing to measure', () => {
    expect(cardText(asked('', 'gears').card)).not.toContain('How to measure');
  });
});
