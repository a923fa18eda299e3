import { openRecords } from '../../adapters/storage/open.ts';
import { receiptCode } from '../../src/records/receipts.ts';
import type { Where } from '../../src/records/where.ts';
import { person, place } from './storages.ts';

/**
 * A process that keeps receipts and signs rows as fast as it can, and says on standard output what was acknowledged: a
 * line "r <code>" or "j <job> <sequence>" each. It goes on until it is killed.
 *
 *     node test/support/writer.ts <where as JSON> <number of this writer>
 */
const [at = '{}', which = '0'] = process.argv.slice(2);
const records = await openRecords(JSON.parse(at) as Where);
const who = { place: place('club:1'), person: person(`writer-${which}`) };

const row = { fastener: 'Bolt', material: '', lowNm: 1, highNm: 2, source: '' };
const opened = await records.jobs.open(who, { title: 'job', setup: '', rows: [row] }, 0);
if (opened.kind !== 'opened') throw new Error('a job opens');
const { job } = opened.view;
process.stdout.write(`j ${job} 1\n`);

/** As many people may ask at the same moment: their receipts go into one change. */
const AT_ONCE = 4;

async function keep(n: number): Promise<void> {
  // Unlike any other writer's: two bytes of its own, three of counting.
  const code = receiptCode(Uint8Array.of(Number(which) >> 8, Number(which) & 255, n >> 16, (n >> 8) & 255, n & 255));
  if (code === null) throw new Error('five bytes make a code');
  const receipt = { code, command: 'convert', setup: `${n}`, options: {}, rules: '', answer: '{}', card: '{}' };
  const kept = await records.receipts.keep(who, receipt, n);
  if (kept.kind === 'kept') process.stdout.write(`r ${code}\n`);
}

for (let n = 0; ; n += AT_ONCE) {
  await Promise.all(Array.from({ length: AT_ONCE }, (_, more) => keep(n + more)));
  const noted = await records.jobs.act(who, job, { kind: 'noted', text: `note ${n}` }, n);
  if (noted.kind === 'recorded') process.stdout.write(`j ${job} ${noted.view.state.sequence}\n`);
}
