import fc from 'fast-check';
import { expect, it } from 'vitest';
import { packed, unpacked } from '../../adapters/storage/packing.ts';
import { newPlace, openBoth, sqlite } from '../support/storages.ts';
import { RECEIPT } from './examples.ts';

it('gives JSON texts back as they were', () => {
  const Json = fc.json({ stringUnit: 'binary' });
  fc.assert(
    fc.property(fc.array(Json, { minLength: 1 }), (texts) => {
      expect(unpacked(packed(texts))).toEqual(texts);
    }),
  );
});

it('makes what says much twice short, in letters that neither engine has to escape', () => {
  const pack = packed([JSON.stringify(Array.from({ length: 500 }, (_, teeth) => ({ teeth, fit: 'fits' })))]);
  expect(pack).toMatch(/^[A-Za-z0-9+/]+=*$/);
  expect(pack.length).toBeLessThan(3000);
});

it('leaves receipts readable that were kept unpacked', async () => {
  const storage = await sqlite();
  const { records, store } = await openBoth(await storage.fresh());
  const { at, ann } = newPlace();
  const earlier = { ...RECEIPT, code: 'ABCDEF77', setup: 'ring=32', answer: '{"é":1}', card: '{"answer":"32T"}' };
  await records.receipts.keep(ann, RECEIPT, 1);
  await store.change(at, async ({ scope }) => {
    const { owner } = await scope.selectFrom('receipts').select('owner').executeTakeFirstOrThrow();
    const { code, ...content } = earlier;
    await scope
      .insertInto('receipts')
      .values({ code, owner, at: 2, content: JSON.stringify(content) })
      .execute();
  });
  expect(await records.receipts.read(at, 'ABCDEF77')).toEqual({
    ...earlier,
    owner: { kind: 'person', person: 'ann' },
    atMs: 2,
  });
  await store.close();
  await storage.end();
});
