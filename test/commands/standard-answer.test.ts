import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Card } from '../../src/card/card.ts';
import type { PinnedQuestion } from '../../src/records/answers.ts';
import { RULES } from '../../src/records/rules.ts';
import { cardText } from '../support/card-text.ts';
import { type Club, codeOf, kept, NOON_MS, openClubs, refusal } from '../support/club.ts';

const BIKE = '2x10 36/22 11-36 29er hardtail 104bcd stays 440mm chain 108';
const CHAIN = 'chain ring=32 cassette=11-36 stays=440mm chain=108';

let clubs: Awaited<ReturnType<typeof openClubs>>;
beforeAll(async () => {
  clubs = await openClubs();
});
afterAll(() => clubs.end());

/** A club whose members of the role "mods" may pin; people called mod-… have it. */
async function club(approvals = false): Promise<Club> {
  const opened = clubs.club();
  await opened.records.settings.change(opened.who('mod-ann'), { pinRoles: ['mods'], approvals }, NOON_MS);
  return opened;
}

/** What is pinned under a topic, as the records have it. */
async function pinnedIn({ at, records }: Club, topic: string) {
  const found = await records.answers.show(at, topic);
  if (found.kind !== 'shown') throw new Error(found.kind);
  return found.version;
}

function questionOf({ text }: { readonly text: { readonly question: PinnedQuestion | null } }): PinnedQuestion {
  if (text.question === null) throw new Error('no question');
  return text.question;
}

/** Pins the chain question under a topic. */
async function pinChain(each: Club, topic: string, words = ''): Promise<void> {
  const code = codeOf(await each.says('member', CHAIN));
  kept(await each.says('mod-ann', `answer pin ${topic} from=#${code} ${words}`));
}

/** Puts another snapshot behind a topic, as if it had been pinned while other rules held. */
async function doctor(each: Club, topic: string, change: (result: Record<string, Record<string, unknown>>) => void) {
  const version = await pinnedIn(each, topic);
  const question = questionOf(version);
  const result = JSON.parse(question.result) as Record<string, Record<string, unknown>>;
  change(result);
  const doctored = { ...question, rules: '2025-01', result: JSON.stringify(result) };
  await each.records.answers.write(
    each.who('mod-ann'),
    {
      topic,
      deed: 'edit',
      restored: null,
      basedOn: version.version,
      text: { ...version.text, question: doctored },
      why: 'for the test',
      needsApproval: false,
    },
    NOON_MS,
  );
}

describe('a standard answer', () => {
  it('is pinned by moderators only; a member is told whom to ask', async () => {
    const { says } = await club();
    const told = refusal(await says('member', 'answer pin hills Use 32.'));
    expect(told.message).toBe('answer pin is for the moderators of this place.');
    expect(told.allowed).toContain('ask one of them');
    expect(refusal(await says('member', 'answer show hills')).message).toContain('no standard answer "hills"');
  });

  it('of words alone is shown to everybody with who, when and its other names', async () => {
    const { says } = await club();
    kept(await says('mod-ann', 'answer pin hills aliases=climbing,steep Use 32. Most of us ride it.'));
    const reply = await says('member', 'answer show STEEP');
    const { result, words } = kept(reply);
    expect(reply.card.answer).toBe('Use 32.');
    expect(words).toContain('Use 32. Most of us ride it.');
    expect(words).toContain('Version 1, pinned by mod-ann on 2026-11-25.');
    expect(words).toContain('Also found as: climbing, steep.');
    expect(reply).toMatchObject({ public: true });
    expect(result).toMatchObject({ topic: 'hills', body: 'Use 32. Most of us ride it.', question: null, today: null });
  });

  it('keeps what was typed as it was typed', async () => {
    const { says } = await club();
    const text = '@everyone <!channel> **x** [go](javascript:1) \u202ebackwards';
    kept(await says('mod-ann', 'answer pin odd', { text }));
    expect((await says('member', 'answer show odd')).card.answer).toBe(text);
  });

  it('of a question is solved again and shown below the words', async () => {
    const each = await club();
    await pinChain(each, 'chain', 'Ask for help with your first one.');
    const reply = await each.says('member', 'answer show chain');
    const fresh = await each.says('member', CHAIN);
    expect(reply.card.answer).toBe('Ask for help with your first one.');
    // Every word of the plain answer is there, and stop-riding advice stands before all of it.
    for (const line of [fresh.card.answer, fresh.card.readBack, ...fresh.card.lines]) {
      expect(cardText(reply.card)).toContain(line);
    }
    expect(reply.card.blocks[0]).toMatchObject({ kind: 'caution', level: 'stop' });
    const count = (card: Card, kind: string) => card.blocks.filter((block) => block.kind === kind).length;
    for (const kind of ['caution', 'table', 'checklist', 'working']) {
      expect(count(reply.card, kind)).toBe(count(fresh.card, kind));
    }
    expect(cardText(reply.card)).toContain(`it still holds (rules ${RULES}, as when it was pinned)`);
    // 106 pitches: the plain answer's own figure, here as data.
    expect(kept(reply).result).toMatchObject({ today: { holds: true, answer: { chain: { targetPitches: 106 } } } });
  });

  it('of a question without words opens with what the question gives', async () => {
    const each = await club();
    await pinChain(each, 'chain');
    const fresh = await each.says('member', CHAIN);
    expect((await each.says('member', 'answer show chain')).card.answer).toBe(fresh.card.answer);
  });

  it('is shown with something else told on top, and offers its follow-ups that way', async () => {
    const each = await club();
    await pinChain(each, 'chain', 'Measure first.');
    const wider = await each.says('member', 'answer show chain with="allowance=4"');
    expect(kept(wider).result).toMatchObject({ today: { holds: true, answer: { chain: { allowancePitches: 4 } } } });
    // 103.30 of bare wrap and 4 come to 108, the next even count.
    expect(wider.card.answer).toContain('108 pitches');
    expect(kept(wider).words).toContain('Measure first.');
    expect(kept(wider).words).toContain('+6 pitches (show chain with="allowance=4 allowance=6")');
    const refused = refusal(await each.says('member', 'answer show chain with="allowance=5"'));
    expect(refused.field).toBe('allowance');
  });

  it('pinned from a kept bike says the bike in its own line, and follows the units of the place', async () => {
    const each = await club();
    await each.records.settings.change(each.who('mod-ann'), { units: 'imperial' }, NOON_MS);
    await each.says('member', `bike save winter ${BIKE}`);
    const code = codeOf(await each.says('member', 'convert bike=winter ring=32'));
    kept(await each.says('mod-ann', `answer pin winter from=${code}`));
    const { setup } = questionOf(await pinnedIn(each, 'winter'));
    expect(setup).toContain('rings 36/22');
    expect(setup).not.toContain('imperial');
    await each.says('member', 'bike forget winter');
    const imperial = await each.says('member', 'answer show winter');
    expect(kept(imperial).result).toMatchObject({ today: { holds: true, answer: { chain: { removePitches: 2 } } } });
    expect(cardText(imperial.card)).toContain('22.6 mph (36.3 km/h)');
    await each.records.settings.change(each.who('mod-ann'), { units: 'metric' }, NOON_MS);
    expect(cardText((await each.says('member', 'answer show winter')).card)).toContain('36.3 km/h (22.6 mph)');
  });

  it('cannot be made of a question back, of nothing, or of a code that is none', async () => {
    const { says } = await club();
    const asks = await says('member', 'convert 2x10 44/32/22 11-36');
    if (asks.kind !== 'asks') throw new Error(asks.kind);
    const back = refusal(await says('mod-ann', `answer pin odd from=#${asks.receipt?.code}`));
    expect(back.message).toContain('a question back');
    expect(refusal(await says('mod-ann', 'answer pin odd')).field).toBe('text');
    expect(refusal(await says('mod-ann', 'answer pin odd from=#ZZZZZZZZ')).message).toContain('no receipt');
    expect(refusal(await says('mod-ann', 'answer pin ?! words')).message).toContain('no letter');
    expect(refusal(await says('mod-ann', `answer pin odd ${'x'.repeat(1801)}`)).allowed).toBe('up to 1800');
  });

  it('is missed kindly: near misses by name, and what was taken down can come back', async () => {
    const { says } = await club();
    kept(await says('mod-ann', 'answer pin chain-length Measure first.'));
    const near = refusal(await says('member', 'answer show chian lenght'));
    expect(near.allowed).toContain('chain-length');
    expect(near.example).toBe('answer show chain-length');
    kept(await says('mod-ann', 'answer unpin chain-length why="too short"'));
    const down = refusal(await says('member', 'answer show chain-length'));
    expect(down.message).toContain('taken down by mod-ann on 2026-11-25 (too short)');
    expect(refusal(await says('mod-ann', 'answer unpin chain-length why=again')).message).toContain('not pinned');
    kept(await says('mod-ann', 'answer restore chain-length 1 why="missed"'));
    expect((await says('member', 'answer show chain length')).card.answer).toBe('Measure first.');
  });

  it('is found by its words, and listed by topic a page at a time', async () => {
    const { says } = await club();
    for (let n = 10; n < 32; n += 1) kept(await says('mod-ann', `answer pin topic-${n} Words about ring number ${n}.`));
    const found = kept(await says('member', 'answer find ring 14'));
    expect(found.words).toContain('topic-14: Words about ring number 14.');
    expect(found.result).toMatchObject({ topics: [{ topic: 'topic-14' }], near: [] });
    expect(kept(await says('member', 'answer find number')).words).toContain('There may be more');
    expect(kept(await says('member', 'answer find topc-14')).words).toContain('show topic-14');
    // 22 topics, 20 a page: the first ends at topic-29.
    const first = kept(await says('member', 'answer list'));
    expect(first.result).toMatchObject({ next: 'topic-29' });
    expect(first.words).toContain('list after=topic-29');
    const second = kept(await says('member', 'answer list after=topic-29'));
    expect(second.result).toMatchObject({ topics: [{ topic: 'topic-30' }, { topic: 'topic-31' }], next: null });
  });

  it('that is pinned already, or by a name in use, is told with what stands there', async () => {
    const { says } = await club();
    kept(await says('mod-ann', 'answer pin hills aliases=climbing Use 32.'));
    const again = kept(await says('mod-bea', 'answer pin hills Use 30.'));
    expect(again.words).toContain('hills is pinned already. Both texts are below.');
    expect(again.words).toContain('Use 32.');
    expect(again.words).toContain('Use 30.');
    const taken = refusal(await says('mod-bea', 'answer pin climbing Use 30.'));
    expect(taken.message).toBe('"climbing" already leads to the topic "hills".');
  });
});

describe('changing a standard answer', () => {
  it('with two moderators asked for: draft, approval, edit, restore, and nobody approves their own', async () => {
    const { says } = await club(true);
    const draft = kept(await says('mod-ann', 'answer pin hills why="asked weekly" Use 30 on club hills.'));
    expect(draft.result).toMatchObject({ kind: 'drafted', draft: 1 });
    expect(refusal(await says('member', 'answer show hills')).field).toBe('topic');
    expect(refusal(await says('member', 'answer drafts')).message).toContain('moderators');

    const own = refusal(await says('mod-ann', 'answer approve hills 1'));
    expect(own.message).toContain('your own');
    expect(own.allowed).toContain('another moderator');

    const waits = kept(await says('mod-bea', 'answer drafts'));
    expect(waits.words).toContain('Use 30 on club hills.');
    expect(waits.words).toContain('Why: asked weekly');
    expect(waits.words).toContain('(approve hills 1)');
    const first = kept(await says('mod-bea', 'answer approve hills 1'));
    expect(first.result).toMatchObject({ version: 1, author: { person: 'mod-ann' }, approver: { person: 'mod-bea' } });

    const edited = kept(await says('mod-bea', 'answer edit hills why="stronger" Use 32 on club hills.'));
    expect(edited.words).toContain('“Use 30 on club hills.” became “Use 32 on club hills.”');
    kept(await says('mod-ann', 'answer approve hills 2'));
    expect((await says('member', 'answer show hills')).card.answer).toBe('Use 32 on club hills.');

    kept(await says('mod-ann', 'answer restore hills 1 better before'));
    const third = kept(await says('mod-bea', 'answer approve hills 3'));
    expect(third.result).toMatchObject({ version: 3, deed: 'restore', restored: 1, body: 'Use 30 on club hills.' });

    const history = kept(await says('member', 'answer history hills'));
    expect(history.result).toMatchObject({ versions: [{ version: 3 }, { version: 2 }, { version: 1 }], more: false });
    expect(history.words).toContain('brought back from version 1 by mod-ann on 2026-11-25, approved by mod-bea');
    expect(history.words).toContain('“Use 32 on club hills.” became “Use 30 on club hills.”');
    expect(history.words).toContain('Why: better before');
  });

  it('proposes one draft at a time, which can be declined with a reason', async () => {
    const { says } = await club(true);
    kept(await says('mod-ann', 'answer pin hills First words.'));
    const second = kept(await says('mod-bea', 'answer pin hills Second words.'));
    expect(second.result).toMatchObject({ kind: 'draft-waits', mine: { body: 'Second words.' } });
    expect(second.words).toContain('First words.');
    expect(second.words).toContain('Second words.');
    expect(refusal(await says('mod-bea', 'answer decline hills 1')).field).toBe('why');
    expect(refusal(await says('mod-bea', 'answer decline hills 4 why=no')).message).toContain('draft 1 is the one');
    const declined = kept(await says('mod-bea', 'answer decline hills 1 too short'));
    expect(declined.words).toContain('Why: too short');
    expect(declined.words).toContain('First words.');
    expect(kept(await says('mod-bea', 'answer drafts')).words).toContain('No draft waits.');
    kept(await says('mod-ann', 'answer pin hills Third words.'));
    expect(kept(await says('mod-ann', 'answer decline hills 2 why=no')).words).toContain('Taken back: your draft 2');
  });

  it('says where no second person is asked for', async () => {
    const { says } = await club();
    expect(refusal(await says('mod-ann', 'answer approve hills 1')).allowed).toContain('no second person');
  });

  it('by two at once keeps the first and shows the second both texts', async () => {
    const { says } = await club();
    kept(await says('mod-ann', 'answer pin hills Use 28.'));
    const both = await Promise.all([
      says('mod-ann', 'answer edit hills version=1 why="one" Use 30.'),
      says('mod-bea', 'answer edit hills version=1 why="two" Use 32.'),
    ]);
    const results = both.map((reply) => kept(reply).result as { kind: string });
    expect(results.map(({ kind }) => kind).sort()).toEqual(['conflict', 'kept']);
    const lost = both[results.findIndex(({ kind }) => kind === 'conflict')];
    if (lost === undefined) throw new Error('one of them lost');
    expect(kept(lost).words).toContain('Use 30.');
    expect(kept(lost).words).toContain('Use 32.');
    expect(kept(lost).words).toContain('Yours is kept nowhere: copy it now.');
  });

  it('approves no draft over a change that came in between, unless somebody has seen both', async () => {
    const each = await club(true);
    const { says, records, who } = each;
    kept(await says('mod-ann', 'answer pin hills One.'));
    kept(await says('mod-bea', 'answer approve hills 1'));
    kept(await says('mod-ann', 'answer edit hills why="x" Draft.'));
    await records.settings.change(who('mod-ann'), { approvals: false }, NOON_MS);
    kept(await says('mod-cem', 'answer edit hills why="y" Two.'));
    const late = kept(await says('mod-bea', 'answer approve hills 2'));
    expect(late.result).toMatchObject({ kind: 'moved', draft: 3, body: 'Draft.', theirs: { body: 'Two.' } });
    expect(late.words).toContain('The draft waits as number 3 now, on what stands.');
    // Whoever saw the draft before that approves nothing; whoever proposed it neither.
    expect(refusal(await says('mod-cem', 'answer approve hills 2')).message).toContain('3');
    expect(refusal(await says('mod-ann', 'answer approve hills 3')).message).toContain('your own');
    expect(kept(await says('mod-bea', 'answer approve hills 3')).result).toMatchObject({ version: 3, body: 'Draft.' });
  });

  it('leaves what is not told, and refuses an edit that changes nothing or starts nowhere', async () => {
    const each = await club();
    const { says } = each;
    await pinChain(each, 'chain', 'Measure first.');
    kept(await says('mod-ann', 'answer edit chain aliases=length,cut why=names'));
    const named = await pinnedIn(each, 'chain');
    expect(named.text).toMatchObject({
      aliases: ['length', 'cut'],
      body: 'Measure first.',
      question: { command: 'chain' },
    });
    kept(await says('mod-ann', 'answer edit chain from=none why=words'));
    expect((await pinnedIn(each, 'chain')).text).toMatchObject({ aliases: ['length', 'cut'], question: null });
    expect(refusal(await says('mod-ann', 'answer edit chain why=x')).message).toContain('stay just as it is');
    expect(refusal(await says('mod-ann', 'answer edit chain why="x" from=today')).message).toContain('no card');
    expect(refusal(await says('mod-ann', 'answer edit chain version=9 why="x" y')).allowed).toBe('versions 1 to 3');
    expect(refusal(await says('mod-ann', 'answer edit chain Words without a reason.')).field).toBe('why');
    expect(refusal(await says('mod-ann', 'answer restore chain 3 why=x')).message).toContain('shown now');
    expect(refusal(await says('mod-ann', 'answer restore chain 8 why=x')).allowed).toBe('versions 1 to 3');
    expect(refusal(await says('mod-ann', 'answer unpin chain version=1 why=x')).message).toContain('changed meanwhile');
  });

  it('is read back version by version, the newest first, a page at a time', async () => {
    const { says } = await club();
    kept(await says('mod-ann', 'answer pin hills Text number 1.'));
    for (let n = 2; n <= 7; n += 1) kept(await says('mod-ann', `answer edit hills why="n${n}" Text number ${n}.`));
    const page = kept(await says('member', 'answer history hills'));
    expect(page.words).toContain('hills: 7 versions.');
    expect(page.words).toContain('“Text number 2.” became “Text number 3.”');
    expect(page.words).not.toContain('number 1');
    expect(page.words).toContain('history hills before=3');
    const older = kept(await says('member', 'answer history hills before=3'));
    expect(older.result).toMatchObject({ versions: [{ version: 2 }, { version: 1 }], more: false });
    const one = kept(await says('member', 'answer history hills version=4'));
    expect(one.words).toContain('Text number 4.');
    expect(one.words).toContain('(restore hills 4 why=)');
    expect(refusal(await says('member', 'answer history hills before=1')).allowed).toBe('versions 1 to 7');
  });
});

describe('an answer that no longer holds', () => {
  it('says so with then and now, is listed alone, and is pinned anew on request', async () => {
    const each = await club();
    const { says } = each;
    await pinChain(each, 'chain', 'Take one pair out.');
    await pinChain(each, 'other');
    kept(await says('mod-ann', 'answer pin words Only words.'));
    expect(kept(await says('member', 'answer stale')).result).toEqual({ looked: 2, stale: [], next: null });

    await doctor(each, 'chain', (result) => Object.assign(result.chain ?? {}, { targetPitches: 104, growthMm: 17.5 }));
    const shown = await says('member', 'answer show chain');
    const { words, result } = kept(shown);
    expect(shown.card.answer).toContain('chain has changed since it was pinned');
    expect(shown.card.lines).toContain(
      `Solved again now: 2 figures changed since 2026-11-25 (rules 2025-01 then, ${RULES} now).`,
    );
    expect(words).toContain('Chain, target: 104 pitches then, 106 pitches now.');
    expect(words).toContain('Chain, growth: 17.5 mm then, not known now.');
    expect(words).toContain('Take one pair out.');
    expect(result).toMatchObject({
      today: {
        holds: false,
        changes: [
          { path: 'chain.growthMm', was: 17.5, is: null },
          { path: 'chain.targetPitches', was: 104, is: 106 },
        ],
      },
    });

    const listed = kept(await says('member', 'answer stale'));
    expect(listed.result).toMatchObject({
      looked: 2,
      stale: [{ topic: 'chain', rulesThen: '2025-01', rulesNow: RULES }],
    });
    expect(listed.words).toContain('One pinned answer no longer holds.');
    expect(listed.words).toContain('Chain, target: 104 pitches then, 106 pitches now.');
    expect(listed.words).not.toContain('edit chain');
    const anew = /\((edit chain [^)]*)\)/.exec(kept(await says('mod-ann', 'answer stale')).words);
    expect(kept(await says('mod-ann', `answer ${anew?.[1]}`)).words).toContain('rules 2025-01 then');
    expect(kept(await says('member', 'answer stale')).result).toMatchObject({ stale: [] });
    expect(kept(await says('member', 'answer show chain')).words).toContain('it still holds');
  });

  it('whose question has no answer any more says so and keeps what it said', async () => {
    const each = await club();
    await pinChain(each, 'chain');
    const version = await pinnedIn(each, 'chain');
    const question = { ...questionOf(version), setup: 'ring=NaN', rules: '2025-01' };
    await each.records.answers.write(
      each.who('mod-ann'),
      { ...version, deed: 'edit', basedOn: 1, text: { ...version.text, question }, needsApproval: false },
      NOON_MS,
    );
    const shown = await each.says('member', 'answer show chain');
    expect(shown.card.answer).toBe('chain: its question has no answer by the rules of today.');
    expect(cardText(shown.card)).toContain('Do not build on the old one.');
    expect(cardText(shown.card)).toContain('Chain for 32T × 36T: 106 pitches');
    expect(kept(await each.says('member', 'answer stale')).result).toMatchObject({
      stale: [{ topic: 'chain', refusal: { field: 'ring' } }],
    });
    expect(refusal(await each.says('mod-ann', 'answer edit chain from=today why=x')).field).toBe('ring');
  });

  it('is found among many, a page at a time', async () => {
    const each = await club();
    await pinChain(each, 'a-first');
    const { text } = await pinnedIn(each, 'a-first');
    for (let n = 100; n < 155; n += 1) {
      const topic = `t-${n}`;
      const write = { topic, deed: 'pin', restored: null, basedOn: 0, text, why: '', needsApproval: false } as const;
      await each.records.answers.write(each.who('mod-ann'), write, NOON_MS);
    }
    // 56 questions; every fifth of the 55, eleven in all, is made stale, and ten fit a card.
    for (let n = 100; n < 155; n += 5) {
      await doctor(each, `t-${n}`, (result) => Object.assign(result.chain ?? {}, { targetPitches: 104 }));
    }
    const first = kept(await each.says('member', 'answer stale')).result as {
      stale: { topic: string }[];
      next: string;
    };
    expect(first.stale.map(({ topic }) => topic)).toEqual(
      [100, 105, 110, 115, 120, 125, 130, 135, 140, 145].map((n) => `t-${n}`),
    );
    const rest = kept(await each.says('member', `answer stale after=${first.next}`));
    expect(rest.result).toMatchObject({ stale: [{ topic: 't-150' }], next: null });
  });
});
