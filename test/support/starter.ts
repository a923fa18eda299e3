import { openRecords } from '../../adapters/storage/open.ts';
import type { Where } from '../../src/records/where.ts';

/** A process that only opens the records and closes them again: `node test/support/starter.ts <where as JSON>`. */
const records = await openRecords(JSON.parse(process.argv[2] ?? '{}') as Where);
await records.close();
