import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openRecords } from '../../adapters/storage/open.ts';
import { replyJson } from '../../adapters/terminal/json.ts';
import { COMMANDS } from '../../src/commands/list.ts';
import type { Reply } from '../../src/request.ts';
import { ask } from '../../src/workbench.ts';
import { answered } from '../support/replies.ts';
import { person, place, sqlite } from '../support/storages.ts';
import type { Case } from './cases.ts';
import { type House, openHouse } from './house.ts';
import { lightRecords } from './light-records.ts';
import { hostileLine } from './lines.ts';
import { liveInDiscord, liveInSlack } from './mentions.ts';
import { allCautions, checkCautions, checkReply, checkShown, shortCautions } from './rules.ts';
import { fuzz } from './run.ts';
import { noTimes, note, percentileMs, together } from './times.ts';

/** The long form is `npm run fuzz`; this much is done with every change. */
const OVER_EVERY_PLATFORM = 2500;
const AT_THE_DESK = 17_500;

const seed = fc.readConfigureGlobal().seed ?? Date.now() % 2 ** 31;

describe('hostile lines', () => {
  it('break no rule on any platform, with all that can be pressed below the answers', {
    timeout: 240_000,
  }, async () => {
    const { failure, kinds } = await fuzz({ lines: OVER_EVERY_PLATFORM, seed });
    expect(failure).toBeNull();
    expect(Object.keys(kinds).toSorted()).toEqual(['kept', 'message', 'old-button', 'question', 'talk', 'typing']);
  });

  it('break no rule at the desk, where machines read', () => {
    const commands = fc.constantFrom(...COMMANDS.map(({ name }) => name));
    fc.assert(
      fc.property(commands, hostileLine, (command, setup) => {
        const reply = ask({ command, setup });
        checkReply(reply);
        const json = replyJson(reply);
        checkShown(json, setup);
        JSON.parse(json);
      }),
      { numRuns: AT_THE_DESK, seed },
    );
  });
});

describe('what came out of a run once', () => {
  let house: House;
  beforeAll(async () => {
    house = await openHouse(false);
  });
  afterAll(() => house.end());

  const kept = (command: string, action: string, told: Readonly<Record<string, string>>): Case['act'] => ({
    kind: 'kept',
    command,
    action,
    told,
  });
  const question = (setup: string, options: Readonly<Record<string, string>> = {}): Case['act'] => ({
    kind: 'question',
    command: 'convert',
    setup,
    options,
  });

  const FOUND: readonly (readonly [string, Case['act'], readonly number[]])[] = [
    ['a refusal with nothing to put right behind Correct', kept('settings', 'show', {}), [0]],
    [
      'an action told whole and refused, asked anew',
      { kind: 'old-button', id: '1|do|bike|rename a b c', value: '' },
      [0],
    ],
    ['two questions with an answer in common', question('104 bcd 110 pcd 104 bcd 110 pcd'), [0]],
    ['two questions that are nearly one', question('1x11 11/11 11-11 11er hardtail 111bcd clutch'), [1]],
    ['a mention for a code, behind Correct', question('2x10', { code: '@everyone' }), [0, 0]],
    ['a field of nothing but a blank', kept('answer', 'unpin', { topic: ' ', why: 'no longer true' }), [0]],
    ['a field that looks blank', kept('bike', 'share', { name: '\u0085' }), [0]],
    ['a field that is blank and does not look so', kept('job', 'undo', { job: '\ufeff', row: '1', why: 'x' }), [0]],
    [
      'letters of an end of line',
      { kind: 'typing', command: 'answer', action: 'show', field: 'topic', typed: '\u0085' },
      [],
    ],
    [
      'a choice that is cut within a word from right to left',
      { kind: 'typing', command: 'convert', action: '', field: 'cassette', typed: `11-36 ${'\u05d0'.repeat(69)}` },
      [],
    ],
    ['a long word from right to left', question(`36/22 ${'\u05d0'.repeat(1900)}`), []],
  ];

  it.each(FOUND)('breaks no rule: %s', async (_, act, presses) => {
    for (const moderator of [false, true]) {
      await expect(house.play({ act, moderator, presses, typed: '@everyone' })).resolves.toBeUndefined();
    }
  });
});

describe('records that are read once', () => {
  it('show what was changed since, also by the work of a delivery', async () => {
    const storage = await sqlite();
    const records = lightRecords(await openRecords(await storage.fresh()));
    const who = { place: place('discord:server:1'), person: person('<@7>') };
    const people = async () => (await records.settings.read(who.place)).pinPeople;
    const add = (name: string) => ({ edits: { pinPeople: [{ kind: 'add', name: person(name) } as const] } });
    expect(await people()).toEqual([]);
    await records.settings.change(who, add('<@1>'), 1);
    expect(await people()).toEqual(['<@1>']);
    await records.deliveries.once({ id: '1', taker: 'a' }, 2).settings.change(who, add('<@2>'), 2);
    expect(await people()).toEqual(['<@1>', '<@2>']);
    await records.close();
    await storage.end();
  });
});

describe('the rules', () => {
  it.each([
    '@everyone',
    'x @here',
    '<@1>',
    '<@!1>',
    '<@&1>',
    '<#1>',
    '<a:x:1>',
    '<t:1:R>',
    '</x y:1>',
    '[x](https://x.example)',
    'http://x.example',
    '\\\\@everyone',
    '\\a@here',
  ])('see that %s is live on Discord', (text) => {
    expect(liveInDiscord(text)).not.toEqual([]);
  });

  it.each(['\\@everyone', '\\<\\@1\\>', '<\\@1>', 'x@y', '\\[x\\](x)', 'https\\://x', '@every one'])(
    'see that %s is not',
    (text) => {
      expect(liveInDiscord(text)).toEqual([]);
    },
  );

  it.each([
    [{ text: '<!channel>' }],
    [{ text: 'a & b' }],
    [{ text: 'x', blocks: [{ type: 'section', text: { type: 'mrkdwn', text: 'x' } }] }],
    [{ text: 'x', blocks: [{ type: 'rich_text_section', elements: [{ type: 'broadcast', range: 'here' }] }] }],
    [{ text: 'x', blocks: [{ type: 'rich_text_section', elements: [{ type: 'user', user_id: 'U1' }] }] }],
    [{ text: 'x', link_names: true }],
  ])('see what is live on Slack: %j', (payload) => {
    expect(liveInSlack(payload)).not.toEqual([]);
  });

  it('see that words of a block are not read as markup', () => {
    const words = { type: 'text', text: '<!channel>' };
    expect(liveInSlack({ text: '&lt;!channel&gt;', blocks: [{ elements: [words] }] })).toEqual([]);
  });

  it.each([
    'a\u001b[31m',
    'a\u0000',
    '\u202eabc',
    'a\u200bb',
    '\u2068x',
    'x\u2069',
    '\ud83d',
    'Needs NaN teeth',
    '[object Object]',
  ])('see what may not be shown: %j', (text) => {
    expect(() => checkShown(text, '36/22')).toThrow();
  });

  it('let be shown what somebody typed, and words of every script', () => {
    expect(() => checkShown('"NaN" cannot be read.', 'ring=\uff2eaN')).not.toThrow();
    expect(() => checkShown('\u2068\u05d3\u05e8\u05d0\u2069 32T\n', '')).not.toThrow();
  });

  it('see an answer that is too long, a number that is none, and a plan without its cautions', () => {
    const reply: Reply = answered('36/22 11-36 104bcd');
    expect(() => checkReply(reply)).not.toThrow();
    const { card } = reply;
    expect(() => checkReply({ ...reply, card: { ...card, answer: 'x'.repeat(121) } })).toThrow('120');
    expect(() => checkReply({ ...reply, card: { ...card, answer: ' ' } })).toThrow('empty');
    expect(() => checkReply({ ...reply, card: { ...card, blocks: [] } })).toThrow('caution');
    expect(() => checkReply({ ...reply, read: { stayMm: Number.NaN } })).toThrow('a number that is none');
    const cautions = allCautions(card);
    expect(shortCautions(card).length).toBeGreaterThan(0);
    expect(() => checkCautions(cautions, cautions.join('\n'))).not.toThrow();
    expect(() => checkCautions(cautions, cautions.slice(1).join('\n'))).toThrow('missing');
  });
});

describe('the times', () => {
  it('give the percentile of all threads together, rounded up', () => {
    const [one, other] = [noTimes(), noTimes()];
    for (let count = 0; count < 99; count += 1) note(one, 0.42);
    note(other, 12.34);
    const all = together(one, other);
    expect([0.5, 0.99, 1].map((share) => percentileMs(all, share))).toEqual([0.5, 0.5, 12.4]);
    note(other, 1e9);
    expect(percentileMs(other, 1)).toBeGreaterThanOrEqual(2000);
  });
});
