import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Message } from '../../adapters/slack/wire.ts';
import { type OpenRecords, openRecords } from '../../adapters/storage/open.ts';
import { type Double, openDouble } from '../support/slack-double.ts';
import { mention, press, slash, suggestion } from '../support/slack-payloads.ts';
import { openProgram, type Program } from '../support/slack-program.ts';
import { buttonOf } from '../support/slack-stage.ts';
import { type Storage, sqlite } from '../support/storages.ts';
import { until } from '../support/until.ts';

let storage: Storage;
let records: OpenRecords;
let double: Double;
let program: Program;
beforeAll(async () => {
  storage = await sqlite();
  records = await openRecords(await storage.fresh());
  double = await openDouble();
  program = await openProgram(double, records, {
    receiving: { kind: 'socket', appToken: 'xapp-1' },
    pictures: { kind: 'upload' },
  });
});
afterAll(async () => {
  await program.app.close();
  await double.close();
  await records.close();
  await storage.end();
});

describe('payloads over a socket', () => {
  it('need no address of ours, only the token of the app', () => {
    expect(double.connects).toEqual(['xapp-1']);
    expect(program.app.port).toBeNull();
  });

  it('are acknowledged with the answer', async () => {
    const reply = await double.send(
      'slash_commands',
      slash({ user: 'UANN' }, 'convert 2x10 36/22 11-36 104bcd', double.newAddress()),
    );
    expect(reply).toMatchObject({ response_type: 'ephemeral', text: expect.stringContaining('suits best') });
    const options = await double.send('interactive', suggestion({ user: 'UANN' }, 'convert||wheel', '57'));
    expect(options).toMatchObject({ options: expect.any(Array) });
  });

  it('change a card in place, and bring its picture when the platform has taken it in', async () => {
    const line = 'convert 2x10 36/22 11-36 104bcd stays=440mm';
    const card = (await double.send('slash_commands', slash({ user: 'UANN' }, line, double.newAddress()))) as Message;
    const { action_id, value } = buttonOf(card, 'Chain');
    const before = double.platform.arrived.length;
    const url = double.newAddress();
    const on = { kind: 'message', ts: '1.1', mine: true, url } as const;
    expect(await double.send('interactive', press({ user: 'UANN' }, { type: 'button', action_id, value }, on))).toEqual(
      {},
    );
    await until(() => double.platform.arrived.length === before + 2);
    const [text, picture] = double.platform.arrived.slice(before);
    expect(text?.message.blocks.some(({ type }) => type === 'image')).toBe(false);
    expect(picture?.message.blocks.some(({ type }) => type === 'image')).toBe(true);
    expect([...double.platform.files.values()]).toEqual([{ sent: true, done: true, looks: 2 }]);
    expect(double.platform.faults).toEqual([]);
  });

  it('post a page to print when a button asks for it', async () => {
    const line = 'job open 2x10 36/22 11-36 104bcd cranktype=pinch';
    await double.send('slash_commands', slash({ user: 'UANN' }, line, double.newAddress()));
    const asked = slash({ user: 'UANN' }, 'job print 1', double.newAddress());
    const card = (await double.send('slash_commands', asked)) as Message;
    const { action_id, value } = buttonOf(card, 'Post the page here');
    const on = {
      kind: 'message',
      ts: '1.1',
      mine: true,
      thread: '1700000000.000600',
      url: double.newAddress(),
    } as const;
    await double.send('interactive', press({ user: 'UANN' }, { type: 'button', action_id, value }, on));
    await until(() => double.platform.pages.length === 1);
    const [page] = double.platform.pages;
    expect(page).toMatchObject({ channel: 'C01SHOP', thread: '1700000000.000600', comment: card.text });
    expect(Buffer.from(page?.bytes ?? []).toString('latin1')).toMatch(/^%PDF-/);
    expect(double.platform.faults).toEqual([]);
  });

  it('answer a mention in its thread', async () => {
    await double.send('events_api', mention({ user: 'UANN' }, 'measure stays', '1700000000.000700'));
    await until(() => double.platform.arrived.some(({ thread }) => thread === '1700000000.000700'));
  });

  it('whose connection is gone before they are answered are answered at their addresses', async () => {
    const saving = Promise.withResolvers<void>();
    const shut = Promise.withResolvers<void>();
    const other = await openDouble();
    const held: typeof records = {
      ...records,
      deliveries: {
        ...records.deliveries,
        once: (...delivery) => {
          const own = records.deliveries.once(...delivery);
          const save: typeof own.bikes.save = async (...bike) => {
            other.shut(shut.promise);
            await saving.promise;
            return own.bikes.save(...bike);
          };
          return { ...own, bikes: { ...own.bikes, save } };
        },
      },
    };
    const alone = await openProgram(other, held, { receiving: { kind: 'socket', appToken: 'xapp-1' } });
    try {
      const line = 'bike save name=winter setup="2x10 36/22 11-36 104bcd"';
      void other.send('slash_commands', slash({ user: 'UANN' }, line, other.newAddress()));
      await until(() => !alone.app.isUp());
      saving.resolve();
      await until(() => other.platform.arrived.length > 0);
      expect(other.platform.arrived.map(({ message }) => message.text)).toEqual([expect.stringContaining('winter')]);
      expect(alone.lines.map(({ text }) => text)).toContain('a first answer could not be sent; it goes another way');
    } finally {
      shut.resolve();
      await alone.app.close();
      await other.close();
    }
  });

  it('come again after the platform asked to connect anew', async () => {
    double.disconnect();
    await until(() => double.connects.length === 2 && double.connections() === 1, 12_000);
    expect(await double.send('slash_commands', slash({ user: 'UANN' }, 'help', double.newAddress()))).toMatchObject({
      text: expect.any(String),
    });
  });
});
