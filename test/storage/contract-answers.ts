import { describe, expect, it } from 'vitest';
import { openRecords } from '../../adapters/storage/open.ts';
import { LIMITS } from '../../src/records/limits.ts';
import { newPlace } from '../support/storages.ts';
import type { UnderTest } from './contract.ts';
import { RECEIPT, text } from './examples.ts';

/** What the port promises of standard answers. */
export function answersContract(under: UnderTest): void {
  describe('standard answers', () => {
    it('are shown by topic and alias, in any spelling', async () => {
      const { at, ann } = newPlace();
      const written = await under.records().answers.write(
        ann,
        text('Chain bolts', 'Short ones.', {
          text: { aliases: ['Short Bolts'], body: 'Short ones.', question: null },
        }),
        7,
      );
      const version = {
        topic: 'chain-bolts',
        version: 1,
        deed: 'pin',
        restored: null,
        text: { aliases: ['short-bolts'], body: 'Short ones.', question: null },
        why: 'asked every week',
        author: { kind: 'person', person: 'ann' },
        approver: null,
        atMs: 7,
      };
      expect(written).toEqual({ kind: 'kept', version });
      for (const name of ['chain-bolts', 'CHAIN BOLTS!', 'short bolts']) {
        expect(await under.records().answers.show(at, name)).toEqual({ kind: 'shown', version });
      }
    });

    it('keep the question that produced a card', async () => {
      const { at, ann } = newPlace();
      const { code: _, answer, ...asked } = RECEIPT;
      const question = { ...asked, result: answer };
      await under.records().answers.write(ann, text('hills', '', { text: { aliases: [], body: '', question } }), 1);
      await under.records().answers.write(ann, text('words', 'only words'), 1);
      expect(await under.records().answers.show(at, 'hills')).toMatchObject({ version: { text: { question } } });
      expect((await under.records().answers.questions(at, '', 10)).map(({ topic }) => topic)).toEqual(['hills']);
    });

    it('are found by whole words and beginnings in topic, aliases and body, the topic first', async () => {
      const { at, ann } = newPlace();
      const write = (topic: string, body: string, aliases: string[] = []) =>
        under.records().answers.write(ann, text(topic, body, { text: { aliases, body, question: null } }), 1);
      await write('ring bolts', 'Steel or aluminium: use a magnet.');
      await write('magnets', 'Which metal is it? Rings differ.');
      await write('chain length', 'Measure with the suspension at its longest.', ['how many pitches']);
      const find = async (words: string) =>
        (await under.records().answers.find(at, words, 10)).topics.map(({ topic }) => topic);
      expect(await find('magnet')).toEqual(['magnets', 'ring-bolts']);
      expect(await find('alumin steel')).toEqual(['ring-bolts']);
      expect(await find('PITCH')).toEqual(['chain-length']);
      expect(await find('magnet suspension')).toEqual([]);
      expect(await find('!?')).toEqual([]);
      expect((await under.records().answers.find(at, 'magnet', 1)).topics).toEqual([
        { topic: 'magnets', body: 'Which metal is it? Rings differ.', command: null },
      ]);
    });

    it('are found all the same after the daily sweep has tidied up', async () => {
      const { at, ann } = newPlace();
      const topics = Array.from({ length: 30 }, (_, n) => `t${n + 10}`);
      for (const topic of topics) await under.records().answers.write(ann, text(topic, 'tightening'), 1);
      await under.records().privacy.sweep(0);
      const { topics: found } = await under.records().answers.find(at, 'tighten', 40);
      expect(found.map(({ topic }) => topic).sort()).toEqual(topics);
      await under.records().answers.write(ann, text('t9', 'tightening'), 1);
      expect((await under.records().answers.find(at, 'tighten', 40)).topics).toHaveLength(31);
    });

    it('suggest what is spelt nearly the same', async () => {
      const { at, ann } = newPlace();
      for (const topic of ['chain length', 'chainline', 'torque']) {
        await under.records().answers.write(ann, text(topic, 'words'), 1);
      }
      expect(await under.records().answers.show(at, 'chian lenght')).toEqual({
        kind: 'missing',
        near: ['chain-length'],
      });
      expect(await under.records().answers.find(at, 'torqe', 5)).toEqual({ topics: [], near: ['torque'] });
      expect(await under.records().answers.show(at, 'saddle')).toEqual({ kind: 'missing', near: [] });
    });

    it('change without losing what was: every version stays, and can be brought back', async () => {
      const { at, ann, bob } = newPlace();
      await under.records().answers.write(ann, text('hills', 'Use 30.'), 1);
      await under
        .records()
        .answers.write(bob, text('hills', 'Use 32.', { deed: 'edit', basedOn: 1, why: 'stronger now' }), 2);
      const first = await under.records().answers.version(at, 'hills', 1);
      if (first === null) throw new Error('the first version is kept');
      await under
        .records()
        .answers.write(ann, text('hills', '', { deed: 'restore', restored: 1, basedOn: 2, text: first.text }), 3);
      const history = await under.records().answers.history(at, 'hills', Number.POSITIVE_INFINITY, 10);
      expect(
        history.map(({ version, deed, restored, text, author, why, atMs }) => [
          version,
          deed,
          restored,
          text.body,
          author,
          why,
          atMs,
        ]),
      ).toEqual([
        [3, 'restore', 1, 'Use 30.', { kind: 'person', person: 'ann' }, 'asked every week', 3],
        [2, 'edit', null, 'Use 32.', { kind: 'person', person: 'bob' }, 'stronger now', 2],
        [1, 'pin', null, 'Use 30.', { kind: 'person', person: 'ann' }, 'asked every week', 1],
      ]);
      expect((await under.records().answers.history(at, 'hills', 3, 1)).map(({ version }) => version)).toEqual([2]);
      expect(await under.records().answers.version(at, 'hills', 4)).toBeNull();
    });

    it('edited by two at once keep the first and give the second both texts', async () => {
      const { ann, bob } = newPlace();
      await under.records().answers.write(ann, text('hills', 'Use 30.'), 1);
      const edit = (body: string) => text('hills', body, { deed: 'edit', basedOn: 1 });
      const both = await Promise.all([
        under.records().answers.write(ann, edit('from ann'), 2),
        under.records().answers.write(bob, edit('from bob'), 2),
      ]);
      const [kept] = both.filter((each) => each.kind === 'kept');
      const [lost] = both.filter((each) => each.kind === 'conflict');
      if (kept === undefined || lost === undefined) throw new Error('one of each');
      expect(lost.theirs).toEqual(kept.version);
      expect([lost.mine.body, kept.version.text.body].sort()).toEqual(['from ann', 'from bob']);
    });

    it('pinned by two at once under one topic keep the first and tell the second', async () => {
      const { ann, bob } = newPlace();
      const both = await Promise.all([
        under.records().answers.write(ann, text('hills', 'from ann'), 1),
        under.records().answers.write(bob, text('hills', 'from bob'), 1),
      ]);
      expect(both.map(({ kind }) => kind).sort()).toEqual(['conflict', 'kept']);
    });

    it('share no name with another topic', async () => {
      const { ann } = newPlace();
      const aliased = (topic: string, alias: string) =>
        text(topic, 'words', { text: { aliases: [alias], body: 'words', question: null } });
      await under.records().answers.write(ann, aliased('hills', 'climbing'), 1);
      const taken = (named: string) => ({ kind: 'taken', name: named, topic: 'hills' });
      expect(await under.records().answers.write(ann, text('climbing', 'x'), 2)).toEqual(taken('climbing'));
      expect(await under.records().answers.write(ann, aliased('flat', 'HILLS'), 2)).toEqual(taken('hills'));
      expect(await under.records().answers.write(ann, aliased('flat', 'climbing'), 2)).toEqual(taken('climbing'));
    });

    it('taken down are gone from show, find and list, and come back whole', async () => {
      const { at, ann } = newPlace();
      await under.records().answers.write(ann, text('hills', 'Use a magnet.'), 1);
      const down = await under.records().answers.unpin(ann, { topic: 'hills', basedOn: 1, why: 'wrong' }, 2);
      expect(down).toMatchObject({ kind: 'kept', version: { version: 2, deed: 'unpin', why: 'wrong' } });
      expect(await under.records().answers.show(at, 'hills')).toMatchObject({
        kind: 'unpinned',
        version: { version: 2 },
      });
      expect((await under.records().answers.find(at, 'magnet', 5)).topics).toEqual([]);
      expect(await under.records().answers.list(at, '', 5)).toEqual([]);
      expect(await under.records().answers.unpin(ann, { topic: 'hills', basedOn: 2, why: '' }, 3)).toEqual({
        kind: 'missing',
      });
      await under
        .records()
        .answers.write(ann, text('hills', 'Use a magnet.', { deed: 'restore', restored: 1, basedOn: 2 }), 4);
      expect(await under.records().answers.show(at, 'hills')).toMatchObject({ kind: 'shown', version: { version: 3 } });
      expect((await under.records().answers.find(at, 'magnet', 5)).topics).toHaveLength(1);
    });

    it('taken down by somebody who has not seen the newest are left up', async () => {
      const { ann } = newPlace();
      await under.records().answers.write(ann, text('hills', 'one'), 1);
      await under.records().answers.write(ann, text('hills', 'two', { deed: 'edit', basedOn: 1 }), 2);
      expect(await under.records().answers.unpin(ann, { topic: 'hills', basedOn: 1, why: 'old' }, 3)).toMatchObject({
        kind: 'conflict',
        theirs: { version: 2 },
      });
    });

    it('are listed by topic, a page at a time', async () => {
      const { at, ann } = newPlace();
      for (const topic of ['c', 'a', 'b']) await under.records().answers.write(ann, text(topic, topic), 1);
      expect((await under.records().answers.list(at, '', 2)).map(({ topic }) => topic)).toEqual(['a', 'b']);
      expect((await under.records().answers.list(at, 'b', 2)).map(({ topic }) => topic)).toEqual(['c']);
    });

    it('with a second person asked for are drafts until somebody else approves', async () => {
      const { at, ann, bob } = newPlace();
      const drafted = await under.records().answers.write(ann, text('hills', 'Use 30.', { needsApproval: true }), 1);
      expect(drafted).toMatchObject({ kind: 'drafted', draft: { number: 1, basedOn: 0 } });
      expect(await under.records().answers.show(at, 'hills')).toMatchObject({ kind: 'missing' });
      expect((await under.records().answers.drafts(at)).map(({ topic }) => topic)).toEqual(['hills']);
      expect(await under.records().answers.approve(ann, 'hills', 1, 2)).toMatchObject({ kind: 'own-draft' });
      expect(await under.records().answers.approve(bob, 'hills', 2, 2)).toEqual({ kind: 'missing' });
      expect(await under.records().answers.approve(bob, 'hills', 1, 3)).toMatchObject({
        kind: 'kept',
        version: { version: 1, author: { person: 'ann' }, approver: { person: 'bob' }, atMs: 3 },
      });
      expect(await under.records().answers.approve(bob, 'hills', 1, 4)).toEqual({ kind: 'missing' });
      expect(await under.records().answers.drafts(at)).toEqual([]);
    });

    it('proposed by somebody deleted wait for somebody who was there before', async () => {
      const { ann, bob, cem } = newPlace();
      const { answers, privacy } = under.records();
      await answers.write(cem, text('flat', 'Take 36.'), 1);
      await answers.write(ann, text('hills', 'Take 32.', { needsApproval: true }), 1);
      await privacy.delete(ann);
      const own = { kind: 'own-draft', draft: { author: { kind: 'gone' } } };
      expect(await answers.approve(ann, 'hills', 1, 2)).toMatchObject(own);
      expect(await answers.approve(bob, 'hills', 1, 2)).toMatchObject(own);
      expect(await answers.approve(cem, 'hills', 1, 2)).toMatchObject({ kind: 'kept' });
    });

    it('have one draft at a time, which can be declined', async () => {
      const { at, ann, bob, cem } = newPlace();
      const draft = (body: string) => text('hills', body, { needsApproval: true });
      await under.records().answers.write(ann, draft('first'), 1);
      expect(await under.records().answers.write(bob, draft('second'), 2)).toMatchObject({
        kind: 'draft-waits',
        mine: { body: 'second' },
        draft: { text: { body: 'first' } },
      });
      expect(await under.records().answers.decline(cem, 'hills', 1, 'too short', 3)).toMatchObject({
        kind: 'declined',
        draft: { text: { body: 'first' } },
      });
      expect(await under.records().answers.decline(cem, 'hills', 1, 'again', 4)).toEqual({ kind: 'missing' });
      expect(await under.records().answers.write(bob, draft('second'), 5)).toMatchObject({ draft: { number: 2 } });
      expect(await under.records().answers.show(at, 'hills')).toMatchObject({ kind: 'missing' });
    });

    it('approved by one and declined by another at once are one of the two', async () => {
      const { at, ann, bob, cem } = newPlace();
      const other = await openRecords(under.where());
      for (let n = 0; n < 20; n++) {
        await under.records().answers.write(ann, text(`topic ${n}`, 'A text.', { needsApproval: true }), 1);
        const [approved, declined] = await Promise.all([
          under.records().answers.approve(bob, `topic ${n}`, 1, 2),
          other.answers.decline(cem, `topic ${n}`, 1, 'no', 2),
        ]);
        const { kind } = await under.records().answers.show(at, `topic ${n}`);
        const came = [approved.kind, declined.kind, kind];
        expect([
          ['kept', 'missing', 'shown'],
          ['missing', 'declined', 'missing'],
        ]).toContainEqual(came);
        // Whoever decided is the one who is kept as having decided.
        const decided = approved.kind === 'kept' ? bob : cem;
        const { drafts } = await under.records().privacy.show(decided);
        expect(drafts).toContainEqual({ topic: `topic-${n}`, number: 1, as: 'decider', atMs: 2 });
      }
      await other.close();
    });

    it('approved after somebody else’s change show both texts, and wait on what stands then', async () => {
      const { at, ann, bob } = newPlace();
      await under.records().answers.write(ann, text('hills', 'one'), 1);
      await under
        .records()
        .answers.write(ann, text('hills', 'draft', { deed: 'edit', basedOn: 1, needsApproval: true }), 2);
      await under.records().answers.write(bob, text('hills', 'two', { deed: 'edit', basedOn: 1 }), 3);
      expect(await under.records().answers.approve(bob, 'hills', 1, 4)).toMatchObject({
        kind: 'moved',
        draft: { number: 2, basedOn: 2, deed: 'edit', text: { body: 'draft' } },
        theirs: { version: 2, text: { body: 'two' } },
      });
      expect(await under.records().answers.drafts(at)).toHaveLength(1);
      expect(await under.records().answers.approve(bob, 'hills', 1, 5)).toEqual({ kind: 'missing' });
      expect(await under.records().answers.approve(ann, 'hills', 2, 5)).toMatchObject({ kind: 'own-draft' });
      expect(await under.records().answers.approve(bob, 'hills', 2, 5)).toMatchObject({
        kind: 'kept',
        version: { version: 3, text: { body: 'draft' }, author: { person: 'ann' }, approver: { person: 'bob' } },
      });
    });

    it('approved by two at once after a change wait for one who has seen both', async () => {
      const { ann, bob, cem } = newPlace();
      const { answers } = under.records();
      await answers.write(ann, text('hills', 'draft', { needsApproval: true }), 1);
      await answers.write(cem, text('hills', 'one'), 2);
      const both = await Promise.all([bob, cem].map((who) => answers.approve(who, 'hills', 1, 3)));
      expect(both.map(({ kind }) => kind).sort()).toEqual(['missing', 'moved']);
      expect(await answers.unpin(cem, { topic: 'hills', basedOn: 1, why: 'old' }, 4)).toMatchObject({ kind: 'kept' });
      // Taken down meanwhile: approving it puts the topic up anew, and only after that was seen.
      expect(await answers.approve(bob, 'hills', 2, 5)).toMatchObject({
        kind: 'moved',
        draft: { number: 3, basedOn: 2, deed: 'pin' },
        theirs: { deed: 'unpin' },
      });
      expect(await answers.approve(bob, 'hills', 3, 6)).toMatchObject({ kind: 'kept', version: { version: 3 } });
    });

    it('over a limit, empty or without a name are refused and nothing is kept', async () => {
      const { at, ann } = newPlace();
      const write = (topic: string, body: string, aliases: string[] = []) =>
        under.records().answers.write(ann, text(topic, body, { text: { aliases, body, question: null } }), 1);
      expect(await write('hills', 'x'.repeat(LIMITS.body))).toMatchObject({ kind: 'kept' });
      expect(await write('b', 'x'.repeat(LIMITS.body + 1))).toMatchObject({ kind: 'over', field: 'body' });
      expect(await write('x'.repeat(LIMITS.topic + 1), 'x')).toMatchObject({ kind: 'over', field: 'topic' });
      // One sign that folds into eighteen letters, three times.
      expect(await write('ﷺ'.repeat(3), 'x')).toMatchObject({ kind: 'over', field: 'topic' });
      expect(await write('b', 'x', ['a'.repeat(41)])).toMatchObject({ kind: 'over', field: 'alias' });
      const aliases = Array.from({ length: LIMITS.aliases + 1 }, (_, n) => `alias ${n}`);
      expect(await write('b', 'x', aliases)).toMatchObject({ kind: 'over', field: 'aliases' });
      expect(await write('b', ' \n')).toEqual({ kind: 'empty' });
      expect(await write('?!', 'x')).toEqual({ kind: 'nameless', name: '?!' });
      expect(await write('b', 'x', ['?'])).toEqual({ kind: 'nameless', name: '?' });
      expect((await under.records().answers.list(at, '', 10)).map(({ topic }) => topic)).toEqual(['hills']);
    });
  });
}
