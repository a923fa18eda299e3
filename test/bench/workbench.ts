import { do_not_optimize, measure } from 'mitata';
import { replyJson } from '../../adapters/terminal/json.ts';
import { render } from '../../adapters/terminal/render.ts';
import { readSetup } from '../../src/bike/read-setup.ts';
import { sayBack } from '../../src/bike/say-back.ts';
import { type SettledBike, settle } from '../../src/bike/settled.ts';
import { chainPart } from '../../src/commands/chain.ts';
import { chainlinePart } from '../../src/commands/chainline.ts';
import { convert } from '../../src/commands/convert.ts';
import { derailleurPart } from '../../src/commands/derailleur-part.ts';
import { gearsPart } from '../../src/commands/gears.ts';
import { mountPart } from '../../src/commands/mount.ts';
import { objectionsFor } from '../../src/commands/objections.ts';
import { retentionPart } from '../../src/commands/retention-part.ts';
import { torqueRows } from '../../src/commands/torque.ts';
import { weightPart } from '../../src/commands/weight.ts';
import { ask } from '../../src/workbench.ts';
import { measureStartUp } from './start-up.ts';

/** A full convert may cost this many times the serialisation of its own answer. */
const GOAL_RATIO = 3;
const GOAL_IMPORT_MS = 60;

const SETUP = 'hill-country hardtail 29er 2x10, 36/22, 11-36, 104 BCD, clutch on, stays 440 mm';
const REQUEST = { command: 'convert', setup: SETUP };

/** The numbers of a plan without its words; what `convert` asks of each part. */
function parts(of: SettledBike) {
  const mount = mountPart(of);
  const gears = gearsPart(of, mount.fitOf);
  const teeth = gears.kind === 'found' ? (gears.facts.ring?.teeth ?? null) : null;
  return [
    gears,
    teeth === null ? null : chainPart(of, teeth),
    chainlinePart(of, gears.kind === 'found' ? (gears.sprockets.after?.teeth ?? null) : null),
    derailleurPart(of),
    retentionPart(of),
    torqueRows(of),
    teeth === null ? null : weightPart(of, teeth, null),
    objectionsFor(of, mount.part.smallestEvenTeeth),
  ];
}

async function microseconds(work: () => unknown): Promise<number> {
  const { p50 } = await measure(() => do_not_optimize(work()));
  return p50 / 1000;
}

function verdict(measured: number, goal: number, unit: string): string {
  return `${measured <= goal ? 'met' : 'MISSED'} (goal at most ${goal}${unit})`;
}

/** What a question costs before any platform: printed as a table of its own, because its ratios are of another kind. */
export async function printWorkbench(): Promise<void> {
  const reply = ask(REQUEST);
  const reading = readSetup(SETUP);
  if (reply.kind !== 'answered' || reading.kind !== 'read') throw new Error('The measured question is not answered.');
  const { command, read, assumed, asks, answer, card } = reply;
  const finished = { command, read, assumed, asks, answer, card };
  const { bike } = settle(reading.bike);
  const look = { kind: 'screen', width: 80, colour: false } as const;
  const serialiseUs = await microseconds(() => JSON.stringify(finished));
  const planUs = await microseconds(() => ask(REQUEST));

  const row = (name: string, us: number) =>
    `  ${name.padEnd(44)}${us.toFixed(1).padStart(9)}${(us / serialiseUs).toFixed(2).padStart(9)}`;
  console.log('Core, medians, one core; ratio to JSON.stringify of the same answer\n');
  console.log(`  ${'what'.padEnd(44)}${'µs'.padStart(9)}${'ratio'.padStart(9)}`);
  console.log(
    row(
      `JSON.stringify of the finished answer (${(JSON.stringify(finished).length / 1000).toFixed(0)} kB)`,
      serialiseUs,
    ),
  );
  console.log(row('convert, setup line to card', planUs));
  console.log(row('  read the setup line', await microseconds(() => readSetup(SETUP))));
  console.log(row('  say it back', await microseconds(() => sayBack(reading.bike))));
  console.log(row('  fill the stated defaults', await microseconds(() => settle(reading.bike))));
  console.log(row('  solve (every part of the answer)', await microseconds(() => parts(bike))));
  console.log(row('  solve and put into words', await microseconds(() => convert.answer(bike))));
  console.log(row('to one line of JSON, made inert', await microseconds(() => replyJson(reply))));
  console.log(row('to text at 80 columns', await microseconds(() => render(card, look))));
  console.log(`\n  plans a second on one core: ${Math.round(1e6 / planUs)}`);
  console.log(
    `  convert against JSON.stringify: ${(planUs / serialiseUs).toFixed(2)}, ${verdict(planUs / serialiseUs, GOAL_RATIO, '')}`,
  );

  console.log(
    `\n  ${'fresh process'.padEnd(44)}${'import ms'.padStart(12)}${'whole ms'.padStart(12)}${'over bare'.padStart(12)}`,
  );
  for (const name of ['workbench', 'desk']) {
    const { bareMs, cold, warm } = measureStartUp(name);
    for (const [what, importMs, wholeMs] of [
      ['nothing loaded', 0, bareMs],
      [`src/${name}, compile cache off`, cold.importMs, cold.wholeMs],
      [`src/${name}, compile cache filled`, warm.importMs, warm.wholeMs],
    ] as const) {
      const cells = [importMs.toFixed(1), wholeMs.toFixed(1), (wholeMs / bareMs).toFixed(2)];
      console.log(`  ${what.padEnd(44)}${cells.map((cell) => cell.padStart(12)).join('')}`);
    }
    console.log(
      `  importing src/${name}: ${warm.importMs.toFixed(1)} ms, ${verdict(warm.importMs, GOAL_IMPORT_MS, ' ms')}\n`,
    );
  }
}
