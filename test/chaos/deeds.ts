import type { Chance } from './chance.ts';
import type { Trace } from './ledger.ts';

/** One thing to ask for, in the words of every platform, with how it is found again and known to be kept. */
export type Deed = {
  readonly command: string;
  readonly action: string | null;
  readonly told: Readonly<Record<string, string>>;
  readonly trace: Trace;
  /** Whether what the person was shown says that it is kept. */
  readonly isKept: (shown: string) => boolean;
};

export type Step = { readonly deed: Deed; readonly by: 'first' | 'second' };
export type Came = { readonly kept: boolean; readonly shown: string };
/** What one person, or two, do one after the other; it ends where a step is not acknowledged. */
export type Script = Generator<Step, void, Came>;

/** Where a script plays, and what others have left there. */
export type Scene = {
  readonly place: string;
  readonly person: string;
  /** Whether a second person must approve standard answers here. */
  readonly approvals: boolean;
  /** The numbers of jobs that are open here. */
  readonly jobs: number[];
  readonly chance: Chance;
};

/** No log may hold this: everything typed carries it. */
export const MARK = /zq[0-9a-z]{4,}q/;

let marks = 0;

/** A word that nobody typed before. */
function newMark(): string {
  marks += 1;
  return `zq${(marks + 46_656).toString(36)}q`;
}

/** A bike that is whole enough for a plan, unlike any other by the length of its stays. */
function newSetup(): string {
  marks += 1;
  const stays = (400 + (marks % 500_000) / 10_000).toFixed(4);
  return `2x10 36/22 11-36 29er hardtail 104bcd clutch chain=108 stays=${stays}mm`;
}

/** What tells one such bike from another. */
function staysOf(setup: string): string {
  return /stays=([\d.]+)mm/.exec(setup)?.[1] ?? setup;
}

const JOB_SETUP =
  '2x10 36/22 11-36 29er hardtail 104bcd chain=108 cranktype=pinch boltmaterial=steel bar=flat join=link';
/** What is done with the rows of a job for that bike, so that it can be closed. */
const JOB_ROWS = [
  { row: 1, nm: '13', second: false },
  { row: 2, nm: null, second: false },
  { row: 3, nm: '13.5', second: true },
  { row: 4, nm: null, second: false },
  { row: 5, nm: null, second: false },
  { row: 6, nm: '3', second: false },
  { row: 7, nm: null, second: false },
  { row: 8, nm: null, second: false },
] as const;

/** A question about a bike; its answer is kept under the code that is shown with it. */
export function question(place: string): Deed {
  const setup = newSetup();
  return {
    command: 'convert',
    action: null,
    told: { setup },
    trace: { kind: 'receipt', place, setup },
    isKept: (shown) => shown.includes('lowest gear'),
  };
}

/**
 * Something to keep. The words must be of this very deed: a message that was taken, and whose taking its sender never heard
 * of, comes a second time, perhaps after the next deed. And no refusal may hold them: it repeats in its buttons what was
 * asked for.
 */
function kept(
  command: string,
  action: string,
  told: Readonly<Record<string, string>>,
  trace: Trace,
  ...words: readonly string[]
): Deed {
  return { command, action, told, trace, isKept: (shown) => words.every((each) => shown.includes(each)) };
}

function once(what: string, place: string, mark: string): Trace {
  return { kind: 'once', key: `${what} ${place} ${mark}` };
}

/** A bike is kept, and then kept anew a few times under its name. */
function* bike({ place, person, chance }: Scene): Script {
  const name = newMark();
  const register = `bike ${place} ${person} ${name}`;
  for (let times = chance.between(1, 4); times > 0; times -= 1) {
    const setup = newSetup();
    const trace: Trace = { kind: 'latest', register, value: setup };
    yield { deed: kept('bike', 'save', { name, setup }, trace, `Kept: ${name}`, staysOf(setup)), by: 'first' };
  }
}

/** A job from its opening to its close, signed by two. */
function* job({ place, jobs }: Scene): Script {
  const title = newMark();
  const told = { setup: JOB_SETUP, title };
  const open = kept('job', 'open', told, once('opened', place, title), title, ' is open: ');
  const opened = yield { deed: open, by: 'first' };
  const number = /Job (\d+) is open/.exec(opened.shown)?.[1];
  if (!opened.kept || number === undefined) return;
  jobs.push(Number(number));
  for (const { row, nm, second } of JOB_ROWS) {
    const why = newMark();
    const at = { job: number, row: String(row) };
    if (nm === null) {
      const struck = kept(
        'job',
        'strike',
        { ...at, why },
        once('struck', place, why),
        `Row ${row} of job ${number} is struck out, with the reason`,
      );
      if (!(yield { deed: struck, by: 'first' }).kept) return;
      continue;
    }
    const signed = `Row ${row} of job ${number} is signed`;
    const tick = { ...at, value: nm, wrench: 'A1', why };
    if (!(yield { deed: kept('job', 'tick', tick, once('ticked', place, why), signed), by: 'first' }).kept) return;
    if (!second) continue;
    const again = newMark();
    const check = kept('job', 'second', { ...tick, why: again }, once('ticked', place, again), signed, 'Two people');
    if (!(yield { deed: check, by: 'second' }).kept) return;
  }
  const close = kept('job', 'close', { job: number }, once('closed', place, number), `Job ${number} is closed: `);
  if (!(yield { deed: close, by: 'first' }).kept) return;
  jobs.splice(jobs.indexOf(Number(number)), 1);
}

/** Notes on jobs that somebody else may be working on. */
function* notes({ place, jobs, chance }: Scene): Script {
  for (let times = chance.between(1, 4); times > 0 && jobs.length > 0; times -= 1) {
    const number = String(chance.pick(jobs));
    const text = newMark();
    const noted = kept(
      'job',
      'note',
      { job: number, text },
      once('noted', place, text),
      `Noted on job ${number}`,
      text,
    );
    yield { deed: noted, by: 'first' };
  }
}

/** A standard answer is pinned and edited; or proposed, and approved by the second. */
function* answer({ place, approvals, chance }: Scene): Script {
  const topic = newMark();
  const why = newMark();
  const told = { topic, text: `Measure first. ${newMark()}`, why };
  if (approvals) {
    const draft = kept('answer', 'pin', told, once('draft', place, why), `${topic}: draft 1 is kept`);
    if (!(yield { deed: draft, by: 'first' }).kept) return;
    const approve = { topic, draft: '1' };
    const version = once('version', place, why);
    yield { deed: kept('answer', 'approve', approve, version, `${topic}: version 1 is shown`), by: 'second' };
    return;
  }
  const pin = kept('answer', 'pin', told, once('version', place, why), `${topic}: version 1 is shown`);
  if (!(yield { deed: pin, by: 'first' }).kept) return;
  for (let version = 2; version <= chance.between(2, 4); version += 1) {
    const again = newMark();
    const edit = { topic, text: `Measure twice. ${newMark()}`, why: again };
    const words = `${topic}: version ${version} is shown`;
    if (!(yield { deed: kept('answer', 'edit', edit, once('version', place, again), words), by: 'first' }).kept) return;
  }
}

const SCRIPTS = [bike, job, job, notes, notes, answer] as const;

/** Something to do, by chance. */
export function newScript(scene: Scene): Script {
  return scene.chance.pick(SCRIPTS)(scene);
}

/**
 * Days to keep receipts, far longer than a run, and each of them once in a place: more than it is changed in ten minutes,
 * and fewer than a place may be told.
 */
const FEWEST_DAYS = 1000;
const told = new Map<string, number>();

/** The settings of a place, changed by the one who runs it. */
export function* settings(place: string, chance: Chance): Script {
  for (;;) {
    const days = told.get(place) ?? FEWEST_DAYS;
    told.set(place, days + 1);
    const receiptdays = String(days);
    const trace: Trace = { kind: 'latest', register: `settings ${place}`, value: receiptdays };
    yield {
      deed: kept('settings', 'change', { receiptdays }, trace, 'The settings are changed.', receiptdays),
      by: 'first',
    };
    if (chance.happens(0.1)) return;
  }
}
