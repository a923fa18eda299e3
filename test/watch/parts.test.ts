import { randomBytes } from 'node:crypto';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openPictures } from '../../adapters/picture/pictures.ts';
import { openRecords } from '../../adapters/storage/open.ts';
import { watchedDesk } from '../../adapters/watch/desk.ts';
import { openMetrics } from '../../adapters/watch/metrics.ts';
import { watchedPictures } from '../../adapters/watch/pictures.ts';
import { watchedRecords } from '../../adapters/watch/records.ts';
import type { Sources } from '../../adapters/watch/sources.ts';
import { openDesk } from '../../src/desk.ts';
import type { Figure } from '../../src/draw/figure.ts';
import { readExposition } from '../support/exposition.ts';
import { ownRecords } from '../support/own-records.ts';
import { newPlace } from '../support/storages.ts';

const records = ownRecords();

function metricsOf(sources: Sources = {}) {
  const metrics = openMetrics(
    'discord',
    () => sources,
    () => true,
  );
  return { metrics, read: async () => readExposition(await metrics.text()) };
}

const nowMs = () => Date.now();
const { at, ann } = newPlace();

describe('a watched desk', () => {
  it('counts and times each question under its command and what came of it', async () => {
    const { metrics, read } = metricsOf();
    const desk = watchedDesk(openDesk({ records: records(), nowMs, randomBytes }), metrics);
    const visitor = { who: ann, roles: [], runsPlace: false };
    const ask = (command: string, setup: string) => desk.ask({ request: { command, setup }, visitor });
    await ask('convert', '2x10 36/22 11-36 104bcd');
    await ask('Convert', '2x10 38/24 11-36 104bcd');
    await ask('convert', 'ring=NaN');
    await ask('bike', 'list');
    await ask('my-marked-words', 'of a person');
    const counts = await read();
    const of = (command: string, outcome: string) =>
      counts.value('ringwright_answers_total', { platform: 'discord', command, outcome });
    expect(of('convert', 'answered')).toBe(2);
    expect(of('convert', 'refused')).toBe(1);
    expect(of('bike', 'kept')).toBe(1);
    expect(of('other', 'refused')).toBe(1);
    expect(counts.sum('ringwright_answers_total')).toBe(5);
    expect(counts.value('ringwright_answer_seconds_count', { command: 'convert' })).toBe(3);
    expect(counts.value('ringwright_answer_seconds_sum', { command: 'convert' })).toBeGreaterThan(0);
    expect(await metrics.text()).not.toContain('marked');
  });

  it('counts what could not be kept as away, and a fault of ours as failed, which it passes on', async () => {
    const { metrics, read } = metricsOf();
    const away = await openRecords({ path: join(import.meta.filename, 'no-folder', 'records.db') });
    const visitor = { who: ann, roles: [], runsPlace: false };
    const awayDesk = watchedDesk(openDesk({ records: away, nowMs, randomBytes }), metrics);
    await awayDesk.ask({ request: { command: 'bike', setup: 'list' }, visitor });
    const fault = new TypeError('ours');
    const faulty = watchedDesk({ ask: () => Promise.reject(fault) }, metrics);
    await expect(faulty.ask({ request: { command: 'gears', setup: '' }, visitor })).rejects.toBe(fault);
    await away.close();
    const counts = await read();
    expect(counts.value('ringwright_answers_total', { command: 'bike', outcome: 'away' })).toBe(1);
    expect(counts.value('ringwright_answers_total', { command: 'gears', outcome: 'failed' })).toBe(1);
  });
});

describe('watched records', () => {
  it('time every operation under its name, and work as before', async () => {
    const { metrics, read } = metricsOf();
    const watched = watchedRecords(records(), metrics);
    expect(Object.keys(watched).sort()).toEqual(Object.keys(records()).sort());
    const settings = await watched.settings.read(at);
    expect(settings).toEqual(await records().settings.read(at));
    await watched.settings.change(ann, { decimals: 'comma' }, nowMs());
    const once = watched.deliveries.once({ id: 'one', taker: 'a' }, nowMs());
    await once.settings.change(ann, { decimals: 'point' }, nowMs());
    expect((await records().settings.read(at)).decimals).toBe('point');
    const counts = await read();
    expect(counts.value('ringwright_store_seconds_count', { operation: 'settings.read' })).toBe(1);
    expect(counts.value('ringwright_store_seconds_count', { operation: 'settings.change' })).toBe(2);
    expect(counts.sum('ringwright_store_errors_total')).toBe(0);
  });

  it('count no failure where another process was quicker with a delivery', async () => {
    const { metrics, read } = metricsOf();
    const watched = watchedRecords(records(), metrics);
    const change = (taker: string) =>
      watched.deliveries.once({ id: 'two', taker }, nowMs()).settings.change(ann, { decimals: 'comma' }, nowMs());
    await change('a');
    await expect(change('b')).rejects.toMatchObject({ name: 'DeliveredBefore' });
    expect((await read()).sum('ringwright_store_errors_total')).toBe(0);
  });

  it('count why storage is away', async () => {
    const { metrics, read } = metricsOf();
    const away = watchedRecords(
      await openRecords({ path: join(import.meta.filename, 'no-folder', 'records.db') }),
      metrics,
    );
    await expect(away.settings.read(at)).rejects.toMatchObject({ code: 'gone' });
    expect(away.tables()).toBe('away');
    await away.close();
    const counts = await read();
    expect(counts.value('ringwright_store_errors_total', { operation: 'settings.read', code: 'gone' })).toBe(1);
  });
});

describe('watched pictures', () => {
  it('are counted by what became of them, and those that wait are seen waiting', async () => {
    const drawn = openPictures({ waiting: 1 });
    const { metrics, read } = metricsOf({ picturesWaiting: drawn.waiting });
    const pictures = watchedPictures(drawn, metrics);
    const figure = (lineMm: number): Figure => ({ kind: 'measure', what: 'chainline', tubeMm: 28, gapMm: 27, lineMm });
    const making = [41, 42, 43].map((lineMm) => pictures.png(figure(lineMm), 'light'));
    await Promise.resolve();
    const during = await read();
    await Promise.all(making);
    await pictures.close();
    await pictures.png(figure(44), 'light');
    const counts = await read();
    expect(during.value('ringwright_picture_queue_depth')).toBe(1);
    expect(counts.value('ringwright_picture_queue_depth')).toBe(0);
    expect(counts.value('ringwright_pictures_total', { outcome: 'busy' })).toBe(1);
    expect(counts.value('ringwright_pictures_total', { outcome: 'closed' })).toBe(1);
    expect(counts.sum('ringwright_pictures_total')).toBe(4);
  });
});
