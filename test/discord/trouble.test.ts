import { describe, expect, it } from 'vitest';
import { LIMITS } from '../../adapters/discord/limits.ts';
import { StorageAway } from '../../src/records/storage-away.ts';
import { ANN, BOB, CEM, press, slash, typing } from '../support/discord-payloads.ts';
import { openHeldStage, openStage, shown } from '../support/discord-stage.ts';

const HILLS = '2x10 36/22 11-36 29er hardtail 104bcd clutch stays=440mm chain=108';

describe('slow storage', () => {
  it('is announced within two seconds, and the answer follows', async () => {
    const slow = await openHeldStage();
    const handled = await slow.handle(slash(ANN, 'convert', { setup: HILLS }));
    expect(handled.first).toEqual({ type: 5, data: { flags: 64 } });
    slow.release();
    const sent = await slow.say(slash(BOB, 'answer', { topic: 'nothing' }, 'show'));
    // Announced to everybody, and a refusal is for the asker alone.
    expect(sent.map(({ kind }) => kind)).toEqual(['first', 'remove', 'follow']);
    expect(sent[2] && shown(sent[2]).private).toBe(true);
    const form = await slow.say(press(CEM, '1|fix|convert|#ABCDEFGH'));
    expect(form[0] && shown(form[0]).content).toMatch(/answers slowly/);
    const updated = await slow.say(press(CEM, '1|see|chain|0|convert|#ABCDEFGH'));
    expect(updated.map(({ kind, body }) => [kind, body.type])).toEqual([
      ['first', 6],
      ['edit', undefined],
    ]);
    await slow.end();
  });

  it('that is away leaves questions about a bike, whole and without buttons', async () => {
    const gone = () => Promise.reject(new StorageAway('gone'));
    const away = await openStage({
      records: (records) => ({
        ...records,
        settings: { ...records.settings, read: gone },
        bikes: { ...records.bikes, list: gone },
      }),
    });
    const sent = await away.say(slash(ANN, 'convert', { setup: HILLS }));
    expect(sent.length).toBeGreaterThan(2);
    // Where the program itself is not installed, five messages may follow the first.
    expect(sent.length).toBeLessThanOrEqual(1 + LIMITS.followUps);
    expect(sent.every((each) => shown(each).text.includes('No code'))).toBe(true);
    expect(sent.every((each) => shown(each).private && shown(each).buttons.size === 0)).toBe(true);
    const text = sent.map((each) => shown(each).text).join('\n');
    for (const fact of ['12–14 N·m', '103.303', 'ring=34', 'A number in chat is not a sign-off'])
      expect(text).toContain(fact);
    const [list] = await away.say(typing(ANN, 'convert', 'bike', ''));
    expect(list?.body).toEqual({ type: 8, data: { choices: [] } });
    await away.end();
  });
});

describe('a fault of ours', () => {
  it('ends in one plain apology with a log id, and in the log without a word of anybody', async () => {
    const broken = await openStage({
      records: (records) => ({
        ...records,
        settings: { ...records.settings, read: () => Promise.reject(new Error('secret 36/22 https://token')) },
      }),
    });
    const [first] = await broken.say(slash(ANN, 'convert', { setup: HILLS }));
    expect(first && shown(first).content).toContain('log id c0ffee00');
    expect(first && shown(first).private).toBe(true);
    const told = JSON.stringify(broken.lines);
    expect(told).toContain('c0ffee00');
    expect(told).not.toContain('secret');
    expect(told).not.toContain('token');
    await broken.end();
  });
});
