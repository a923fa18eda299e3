import type { OpenRecords } from '../../adapters/storage/open.ts';
import type { NewText } from '../../src/records/answers.ts';
import type { NewBike } from '../../src/records/bikes.ts';
import type { JobAct } from '../../src/records/job-rules.ts';
import type { NewJob } from '../../src/records/jobs.ts';
import type { Who } from '../../src/records/place.ts';
import type { Receipt } from '../../src/records/receipts.ts';

/** Texts that people send to break things; every one of them must come back as it was. */
export const HOSTILE = [
  `'); drop table bikes; --`,
  `" OR 1=1 --`,
  `$1 ? :name @p \\' \\\\ \\u0000`,
  '\0 and after',
  'half \ud800 a pair \udc00',
  '@everyone <!channel> **x** [go](javascript:1) ```',
  'a\u202eb\u200bc\u2028d\u2029e\r\nf\tg',
  'ラチェット 🚲🚲 naïve ﷽',
  `{"json": [1, null]} \${x} %s %00`,
];

export const BIKE: NewBike = { name: 'Winter', setup: 'rings=36/22', bike: { rings: [36, 22] }, shared: false };

export const RECEIPT: Receipt = {
  code: 'ABCDEFGH',
  command: 'convert',
  setup: '36/22 11-36',
  options: { ring: '32' },
  rules: 'rules 1',
  answer: '{"rings":[]}',
  card: '{"answer":"32"}',
};

export const JOB: NewJob = {
  title: 'Hardtail to 32',
  setup: 'rings=36/22',
  rows: [
    { fastener: 'Ring bolts', material: 'steel', lowNm: 12, highNm: 14, source: 'a table' },
    { fastener: 'Crank bolt', material: 'steel', lowNm: 34, highNm: 44, source: 'a table' },
  ],
};

export const tick = (row: number, setNm: number, dueMs: number | null = null): JobAct => ({
  kind: 'ticked',
  row,
  setNm,
  wrench: { id: 'W1', calibrationDueMs: dueMs },
  why: '',
});

export const text = (topic: string, body: string, more: Partial<NewText> = {}): NewText => ({
  topic,
  deed: 'pin',
  restored: null,
  basedOn: 0,
  text: { aliases: [], body, question: null },
  why: 'asked every week',
  needsApproval: false,
  ...more,
});

/** One of everything by the first person, and a second signature and approval by the second. */
export async function fill(records: OpenRecords, ann: Who, bob: Who): Promise<void> {
  await records.bikes.save(ann, BIKE, 1);
  await records.receipts.keep(ann, RECEIPT, 2);
  await records.answers.write(ann, text('hills', 'Use 32 on hills.'), 10);
  await records.answers.write(ann, text('flat', 'Use 36.', { needsApproval: true }), 11);
  await records.answers.approve(bob, 'flat', 1, 12);
  await records.jobs.open(ann, JOB, 20);
  await records.jobs.act(ann, 1, tick(2, 40), 21);
  await records.jobs.act(bob, 1, tick(2, 40), 22);
  await records.settings.change(bob, { pinPeople: [ann.person] }, 30);
}
