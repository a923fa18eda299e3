import { describe, expect, it } from 'vitest';
import { openRecords } from '../../adapters/storage/open.ts';
import { LIMITS } from '../../src/records/limits.ts';
import { LATEST_RECEIPTS } from '../../src/records/receipts.ts';
import { DEFAULT_SETTINGS } from '../../src/records/settings.ts';
import { newPlace, person } from '../support/storages.ts';
import type { UnderTest } from './contract.ts';
import { HOSTILE, RECEIPT } from './examples.ts';

/** What the port promises of receipts and settings. */
export function receiptsContract(under: UnderTest): void {
  describe('receipts', () => {
    it('come back byte for byte, through another door too', async () => {
      const { at, ann } = newPlace();
      const receipt = {
        ...RECEIPT,
        card: `{"answer":"${'é\u2028 \\u0000 '.repeat(500)}"}`,
        setup: HOSTILE.join('|'),
      };
      expect(await under.records().receipts.keep(ann, receipt, 9)).toEqual({ kind: 'kept' });
      const other = await openRecords(under.where());
      const kept = { ...receipt, owner: { kind: 'person', person: 'ann' }, atMs: 9 };
      expect(await other.receipts.read(at, '#abcd-efgh')).toEqual(kept);
      await other.close();
      expect(await under.records().receipts.read(at, 'ABCDEFG0')).toBeNull();
      expect(await under.records().receipts.read(at, 'no code')).toBeNull();
    });

    it('do not replace each other', async () => {
      const { at, ann, bob } = newPlace();
      await under.records().receipts.keep(ann, RECEIPT, 1);
      expect(await under.records().receipts.keep(bob, { ...RECEIPT, card: '{}' }, 2)).toEqual({ kind: 'taken' });
      expect(await under.records().receipts.read(at, RECEIPT.code)).toMatchObject({ card: RECEIPT.card });
    });

    it('are named to who asked for them, the newest first and the latest only', async () => {
      const { ann, bob, cem } = newPlace();
      for (let count = 1; count <= LATEST_RECEIPTS + 2; count += 1) {
        const code = `ABCDEF${String(count).padStart(2, '0')}`;
        await under.records().receipts.keep(ann, { ...RECEIPT, code, setup: `ring=${count}` }, count);
      }
      await under.records().receipts.keep(bob, { ...RECEIPT, code: 'ABCDEF99' }, 50);
      const latest = await under.records().receipts.latest(ann);
      expect(latest.map(({ atMs }) => atMs)).toEqual([12, 11, 10, 9, 8, 7, 6, 5, 4, 3]);
      expect(latest[0]).toEqual({ code: 'ABCDEF12', command: RECEIPT.command, setup: 'ring=12', atMs: 12 });
      expect(await under.records().receipts.latest(cem)).toEqual([]);
    });

    it('over a limit, or under a code that is none, are refused', async () => {
      const { ann } = newPlace();
      const card = 'x'.repeat(LIMITS.card + 1);
      expect(await under.records().receipts.keep(ann, { ...RECEIPT, card }, 1)).toMatchObject({
        kind: 'over',
        field: 'card',
      });
      expect(await under.records().receipts.keep(ann, { ...RECEIPT, code: 'abc' }, 1)).toEqual({ kind: 'not-a-code' });
    });
  });
  describe('settings', () => {
    it('are the defaults until somebody sets them, and change one by one', async () => {
      const { at, ann, bob } = newPlace();
      expect(await under.records().settings.read(at)).toEqual(DEFAULT_SETTINGS);
      const pinPeople = [bob.person, ann.person];
      await under.records().settings.change(ann, { approvals: true, pinPeople, pinRoles: ['<@&1>'] }, 1);
      await under.records().settings.change(ann, { units: 'imperial', decimals: 'comma' }, 2);
      expect(await under.records().settings.read(at)).toEqual({
        ...DEFAULT_SETTINGS,
        approvals: true,
        pinPeople: ['ann', 'bob'],
        pinRoles: ['<@&1>'],
        units: 'imperial',
        decimals: 'comma',
      });
      await under.records().settings.change(ann, { pinPeople: [] }, 3);
      expect((await under.records().settings.read(at)).pinPeople).toEqual([]);
    });

    it('changed by two at once keep both changes', async () => {
      const { at, ann, bob } = newPlace();
      await Promise.all([
        under.records().settings.change(ann, { approvals: true }, 1),
        under.records().settings.change(bob, { units: 'imperial' }, 1),
      ]);
      expect(await under.records().settings.read(at)).toMatchObject({ approvals: true, units: 'imperial' });
    });

    it('lists edited by many at once, also through two doors, lose no name', async () => {
      const { at, ann, bob } = newPlace();
      const other = await openRecords(under.where());
      const names = Array.from({ length: 20 }, (_, n) => `Role ${n}`);
      const people = names.map((_, n) => person(`rider-${n}`));
      const settings = (n: number) => (n % 2 === 0 ? under.records() : other).settings;
      const edited = (kind: 'add' | 'take') =>
        Promise.all(
          names.map((name, n) => {
            const pinPeople = [{ kind, name: person(`rider-${n}`) }];
            return settings(n).change(n % 3 === 0 ? ann : bob, { edits: { pinRoles: [{ kind, name }], pinPeople } }, n);
          }),
        );
      const all = await edited('add');
      expect(all.map(({ kind }) => kind)).toEqual(names.map(() => 'changed'));
      const { pinRoles, pinPeople } = await under.records().settings.read(at);
      expect([...pinRoles].sort()).toEqual([...names].sort());
      expect([...pinPeople].sort()).toEqual([...people].sort());
      // Every change tells what it found: each of them one name more than the one before.
      const found = all.map((each) => (each.kind === 'changed' ? each.before.pinRoles.length : -1));
      expect(found.sort((a, b) => a - b)).toEqual(names.map((_, n) => n));
      await edited('take');
      await other.close();
      expect(await under.records().settings.read(at)).toMatchObject({ pinRoles: [], pinPeople: [] });
    });

    it('that cannot be are refused and change nothing', async () => {
      const { at, ann } = newPlace();
      expect(await under.records().settings.change(ann, { receiptDays: 0 }, 1)).toMatchObject({ kind: 'days', low: 1 });
      expect(await under.records().settings.read(at)).toEqual(DEFAULT_SETTINGS);
    });
  });
}
