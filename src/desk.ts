import type { Refusal } from './bike/reading.ts';
import { refusalCard } from './card/desk.ts';
import { awayRefusal, moderatorsOnly, noReceipt, noSuchBike } from './card/kept.ts';
import { withDecimalComma } from './card/local.ts';
import { readAction } from './commands/action-line.ts';
import type { KeptCommand, Visit, Visitor } from './commands/kept.ts';
import { asksOfKept, BIKE_NAMED, KEPT_NAMES, RECEIPT_NAMED } from './commands/kept-words.ts';
import { type Timer, within } from './patience.ts';
import { DeliveredBefore, type Delivery } from './records/delivery.ts';
import { CODE_BYTES, readReceiptCode, receiptCode } from './records/receipts.ts';
import type { Records } from './records/records.ts';
import { RULES } from './records/rules.ts';
import { mayPin, type Settings } from './records/settings.ts';
import { StorageAway } from './records/storage-away.ts';
import type { Receipt, Reply, Request } from './request.ts';
import { help, type Solved, ask as solve } from './workbench.ts';

/** What the desk needs from outside: what is kept, the time, and chance for receipt codes. */
export type Ports = {
  readonly records: Records;
  readonly nowMs: () => number;
  readonly randomBytes: (count: number) => Uint8Array;
  /** Without it, what is kept is waited for as long as it takes. */
  readonly timer?: Timer;
};

/**
 * What needs nothing that is kept waits no longer for it. The shorter of the chats' patience is 1.8 seconds of the three
 * that a platform waits, so the answer still goes out as the first one.
 */
const KEPT_PATIENCE_MS = 1000;

/** A question with who asks it; the adapter vouches for the visitor. */
export type Asked = {
  readonly request: Request;
  readonly visitor: Visitor;
  /**
   * What the question came with: then whatever it changes is changed once, however often it is delivered. A question
   * that changes nothing costs nothing more, and may be answered twice.
   */
  readonly delivery?: Delivery;
};

export type Desk = { readonly ask: (asked: Asked) => Promise<Reply> };

/** Loaded at the first question about what is kept: most questions are about a bike, and starting should be quick. */
const keptCommands = async () => (await import('./commands/kept-list.ts')).KEPT_COMMANDS;

/** Commands that speak of no bike: there is nothing to come back to. */
const NOT_KEPT: readonly string[] = ['help', 'measure'];

/** A code is taken once in a million times; three tries in a row failing means that chance is broken. */
const CODE_TRIES = 3;

/**
 * The one door: a question and who asks it in, a card out. Never throws for what a person typed, nor because storage is
 * away: questions about a bike are answered all the same, and say that no receipt was kept. Throws `DeliveredBefore` when
 * somebody else already does what the delivery asks for.
 */
export function openDesk(ports: Ports): Desk {
  return {
    ask: async (asked) => {
      const name = asked.request.command.trim().toLowerCase();
      if (name === 'help') return help(asked.request.setup, await allowedTo(asked.visitor, ports));
      if (!KEPT_NAMES.includes(name)) return answerQuestion(asked, ports);
      const command = (await keptCommands()).find((each) => each.name === name);
      return command === undefined ? answerQuestion(asked, ports) : runAction(command, asked, ports);
    },
  };
}

/** The commands and actions this person may use; with storage away, those that everybody may. */
async function allowedTo({ who, roles, runsPlace }: Visitor, ports: Ports): Promise<readonly KeptCommand[]> {
  const moderates = runsPlace || (await asModerator(who, roles, ports));
  const commands = await keptCommands();
  if (moderates) return commands;
  return commands.map((command) => ({ ...command, actions: command.actions.filter((each) => !each.moderators) }));
}

async function asModerator(who: Visitor['who'], roles: readonly string[], ports: Ports): Promise<boolean> {
  try {
    return mayPin(await inTime(ports.records.settings.read(who.place), ports), who.person, roles);
  } catch (error) {
    if (error instanceof StorageAway) return false;
    throw error;
  }
}

/** Gives up on what is kept when it takes too long; what was begun goes on, and nobody hears of it. */
async function inTime<Result extends object>(work: Promise<Result>, { timer }: Ports): Promise<Result> {
  if (timer === undefined) return work;
  const result = await within(work, KEPT_PATIENCE_MS, timer);
  if (result === null) throw new StorageAway('busy');
  return result;
}

/** A question about a bike, told in the line, kept under a name, or given before under a receipt. */
async function answerQuestion(asked: Asked, ports: Ports): Promise<Reply> {
  const { request } = asked;
  const needsKept = asksOfKept(request);
  try {
    const answer = answerWithKept(asked, ports);
    return await (needsKept ? answer : inTime(answer, ports));
  } catch (error) {
    if (!(error instanceof StorageAway)) throw error;
    if (needsKept) return refuse(request.command, awayRefusal(error));
    const reply = solve(request);
    return isKeepable(reply) ? { ...reply, receipt: null } : reply;
  }
}

async function answerWithKept({ request, visitor }: Asked, ports: Ports): Promise<Reply> {
  const settings = await ports.records.settings.read(visitor.who.place);
  const told = await lookUp(request, visitor, ports.records);
  if (told.kind !== 'question') return told.reply;
  const reply = local(solve(inUnits(told.request, settings)), settings);
  return isKeepable(reply) ? { ...reply, receipt: await keepReceipt(reply, told.request, visitor, ports) } : reply;
}

type Keepable = Exclude<Solved, { readonly kind: 'refused' }>;

function isKeepable(reply: Solved): reply is Keepable {
  return reply.kind !== 'refused' && !NOT_KEPT.includes(reply.command);
}

type LookedUp =
  | { readonly kind: 'question'; readonly request: Request }
  | { readonly kind: 'reply'; readonly reply: Reply };

/** Replaces `bike=name` by the bike kept under it, and a receipt by the question behind it, or by its very answer. */
async function lookUp(request: Request, { who }: Visitor, records: Records): Promise<LookedUp> {
  const named = BIKE_NAMED.exec(request.setup);
  const name = request.options?.bike ?? named?.[1] ?? named?.[2] ?? named?.[3];
  if (name !== undefined) {
    const kept = await records.bikes.load(who, name);
    if (kept === null) return { kind: 'reply', reply: refuse(request.command, noSuchBike(name)) };
    const { bike: _, ...options } = request.options ?? {};
    const setup = named === null ? request.setup : request.setup.replace(named[0], ' ');
    return { kind: 'question', request: { ...request, setup, options, known: kept.bike } };
  }
  const coded = RECEIPT_NAMED.exec(request.setup);
  if (coded === null) return { kind: 'question', request };
  const code = readReceiptCode(coded[1] ?? '');
  const kept = code === null ? null : await records.receipts.read(who.place, code);
  if (kept === null) return { kind: 'reply', reply: refuse(request.command, noReceipt(coded[1] ?? '')) };
  const given = { ...JSON.parse(kept.answer), card: JSON.parse(kept.card) } as Keepable;
  const more = request.setup.slice(coded[0].length);
  const same = request.command.trim().toLowerCase() === kept.command;
  if (same && more.trim() === '' && Object.keys(request.options ?? {}).length === 0) {
    const receipt = { code: kept.code, rules: kept.rules, again: true };
    return { kind: 'reply', reply: { ...given, receipt } };
  }
  // An answer is changed by what is told now; a question still open is settled by it, so the line of then counts as well.
  const setup = given.kind === 'answered' ? more : `${kept.setup} ${more}`;
  const options = given.kind === 'answered' ? request.options : { ...kept.options, ...request.options };
  return { kind: 'question', request: { ...request, setup, options: options ?? {}, known: given.read } };
}

/** The place's units, where the rider tells none. */
function inUnits(request: Request, { units }: Settings): Request {
  if (units === 'metric' || request.known?.units !== undefined) return request;
  return { ...request, known: { units, ...request.known } };
}

function local<Any extends Reply>(reply: Any, settings: Settings): Any {
  return settings.decimals === 'comma' ? { ...reply, card: withDecimalComma(reply.card) } : reply;
}

/** Keeps an answer or a question back under a new code; null where storage has no place for it just now. */
async function keepReceipt(
  reply: Keepable,
  request: Request,
  { who }: Visitor,
  { records, nowMs, randomBytes }: Ports,
): Promise<Receipt | null> {
  const { card, ...answer } = reply;
  const kept = {
    command: reply.command,
    setup: request.setup,
    options: request.options ?? {},
    rules: RULES,
    answer: JSON.stringify(answer),
    card: JSON.stringify(card),
  };
  for (let tries = 0; tries < CODE_TRIES; tries += 1) {
    const code = receiptCode(randomBytes(CODE_BYTES));
    if (code === null) return null;
    const { kind } = await records.receipts.keep(who, { ...kept, code }, nowMs());
    if (kind === 'kept') return { code, rules: RULES, again: false };
    if (kind !== 'taken') return null;
  }
  return null;
}

/** A command about what is kept. */
async function runAction(command: KeptCommand, { request, visitor, delivery }: Asked, given: Ports): Promise<Reply> {
  const { records } = given;
  const ports =
    delivery === undefined ? given : { ...given, records: records.deliveries.once(delivery, given.nowMs()) };
  const reading = readAction(command, request.setup, request.options ?? {});
  if (reading.kind === 'refused') return refuse(command.name, reading.refusal);
  const { action, filled } = reading;
  const { who, roles, runsPlace } = visitor;
  try {
    const settings = await ports.records.settings.read(who.place);
    if (action.moderators && !runsPlace && !mayPin(settings, who.person, roles)) {
      return refuse(command.name, moderatorsOnly(command.name, action.name));
    }
    const visit: Visit = {
      ...visitor,
      records: ports.records,
      nowMs: ports.nowMs(),
      randomBytes: ports.randomBytes,
      solve,
      keep: (reply, told) => keepReceipt(reply, told, visitor, ports),
    };
    const outcome = await action.run(filled, visit);
    if (outcome.kind === 'refused') {
      // What stands in the way may be what the same delivery has done elsewhere.
      if (delivery !== undefined && (await records.deliveries.isOthers(who.place, delivery)))
        throw new DeliveredBefore();
      return refuse(command.name, outcome.refusal);
    }
    const card = { ...outcome.words, readBack: '' };
    // As people typed it: a decimal point in a moderator's text or a wrench's name is theirs.
    return {
      kind: 'kept',
      command: command.name,
      action: action.name,
      public: action.public,
      result: outcome.result,
      card,
      ...(outcome.print === undefined ? {} : { print: outcome.print }),
    };
  } catch (error) {
    if (!(error instanceof StorageAway)) throw error;
    return refuse(command.name, awayRefusal(error));
  }
}

function refuse(command: string, refusal: Refusal): Reply {
  return { kind: 'refused', command, refusal, card: refusalCard(refusal) };
}
