import { readSetup } from '../bike/read-setup.ts';
import type { Refusal } from '../bike/reading.ts';
import { sayBack } from '../bike/say-back.ts';
import { noSuchBike, overRefusal } from '../card/kept.ts';
import type { KeptBike } from '../records/bikes.ts';
import { LIMITS } from '../records/limits.ts';
import type { Action, Field, KeptCommand, KeptOutcome, Visit } from './kept.ts';

const NAME: Field = {
  name: 'name',
  label: 'Name of the bike',
  form: 'word',
  required: true,
  example: 'winter',
  suggest: 'bikes',
};
const SETUP: Field = {
  name: 'setup',
  label: 'The bike',
  form: 'text',
  required: true,
  example: '2x10 36/22 11-36 29er hardtail 104bcd',
};

function refused(refusal: Refusal): KeptOutcome {
  return { kind: 'refused', refusal };
}

function bikeLine(kept: KeptBike): string {
  return `${kept.name}${kept.shared ? ' (shared)' : ''}: ${sayBack(kept.bike)}`;
}

function result({ name, setup, bike, shared, savedAtMs }: KeptBike) {
  return { name, setup, bike, shared, savedAtMs };
}

function kept(answer: string, bikes: readonly KeptBike[], shared = false): KeptOutcome {
  return {
    kind: 'done',
    words: { answer, lines: bikes.slice(0, 5).map(bikeLine), blocks: [] },
    result: shared ? { shared: bikes.map(result) } : { bikes: bikes.map(result) },
  };
}

function takenRefusal(name: string, example: string): Refusal {
  return {
    field: 'name',
    message: `Somebody else shares a bike called "${name}" here.`,
    allowed: 'another name, or not shared',
    example,
  };
}

async function keep(name: string, setup: string, visit: Visit): Promise<KeptOutcome> {
  const reading = readSetup(setup);
  if (reading.kind === 'refused') return refused(reading.refusal);
  const [conflict] = reading.conflicts;
  if (conflict !== undefined) {
    return refused({
      field: conflict.field,
      message: conflict.question,
      allowed: conflict.choices.map((choice) => choice.label).join(', or '),
      example: conflict.choices[0]?.setup ?? SETUP.example,
    });
  }
  const saved = await visit.records.bikes.save(
    visit.who,
    { name, setup, bike: reading.bike, shared: false },
    visit.nowMs,
  );
  switch (saved.kind) {
    case 'over':
      return refused(overRefusal(saved));
    case 'nameless':
      return refused({
        field: 'name',
        message: 'A bike needs a name that can be seen.',
        allowed: `1 to ${LIMITS.bikeName} characters`,
        example: 'bike save winter 2x10 36/22 11-36',
      });
    case 'taken':
      return refused(takenRefusal(name, `bike save my-${name} ${setup}`));
    case 'saved': {
      const now = {
        name,
        setup,
        bike: reading.bike,
        shared: false,
        savedAtMs: visit.nowMs,
        owner: { kind: 'person', person: visit.who.person },
      } as const;
      return kept(saved.replaced === null ? `Kept: ${name}.` : `Kept: ${name}, in place of the one before.`, [now]);
    }
  }
}

const save: Action = {
  name: 'save',
  summary: 'Keep a bike under a name, for you alone',
  moderators: false,
  public: false,
  fields: [NAME, SETUP],
  run: ({ name = '', setup = '' }, visit) => keep(name, setup, visit),
};

const share: Action = {
  name: 'share',
  summary: 'Let everybody here use one of your bikes; share=no takes it back',
  moderators: false,
  public: false,
  fields: [NAME, { name: 'share', label: 'Shared', form: 'yes-no', required: false, example: 'share=no' }],
  run: async ({ name = '', share: wanted = 'yes' }, visit) => {
    const now = wanted.toLowerCase() === 'yes';
    const done = await visit.records.bikes.share(visit.who, name, now, visit.nowMs);
    switch (done.kind) {
      case 'missing':
        return refused(noSuchBike(name));
      case 'taken':
        return refused(takenRefusal(name, `bike rename ${name} my-${name}`));
      case 'shared': {
        const { bike } = done;
        const words = now ? `${bike.name} is shared: everybody here may use it.` : `${bike.name} is yours alone again.`;
        return kept(words, [bike]);
      }
    }
  },
};

const show: Action = {
  name: 'show',
  summary: 'Say one of your bikes, or a shared one',
  moderators: false,
  public: false,
  fields: [NAME],
  run: async ({ name = '' }, visit) => {
    const bike = await visit.records.bikes.load(visit.who, name);
    return bike === null
      ? refused(noSuchBike(name))
      : kept(`${bike.name}: ask about it with bike=${bike.name}.`, [bike]);
  },
};

const list: Action = {
  name: 'list',
  summary: 'Your bikes, and those shared here',
  moderators: false,
  public: false,
  fields: [],
  run: async (_, visit) => {
    const { own, shared, moreShared } = await visit.records.bikes.list(visit.who);
    const count = own.length === 1 ? 'one bike' : `${own.length} bikes`;
    return {
      kind: 'done',
      words: {
        answer:
          own.length + shared.length === 0
            ? 'No bikes kept yet.'
            : `You keep ${count}; ${shared.length} shared by others.`,
        lines: own.length + shared.length === 0 ? ['Keep one: bike save winter 2x10 36/22 11-36'] : [],
        blocks: [
          { kind: 'text', section: 'kept', title: 'Yours', lines: own.map(bikeLine) },
          {
            kind: 'text',
            section: 'kept',
            title: 'Shared by others',
            lines: [...shared.map(bikeLine), ...(moreShared ? ['And more: ask for one by its name.'] : [])],
          },
        ],
      },
      result: { bikes: own.map(result), shared: shared.map(result), moreShared },
    };
  },
};

const rename: Action = {
  name: 'rename',
  summary: 'Give one of your bikes another name',
  moderators: false,
  public: false,
  fields: [
    { ...NAME, name: 'from', label: 'Name it has' },
    { ...NAME, name: 'to', label: 'Name it gets', example: 'summer' },
  ],
  run: async ({ from = '', to = '' }, visit) => {
    const renamed = await visit.records.bikes.rename(visit.who, from, to);
    switch (renamed.kind) {
      case 'renamed':
        return kept(`${from} is now ${renamed.bike.name}.`, [renamed.bike]);
      case 'missing':
        return refused(noSuchBike(from));
      case 'over':
        return refused(overRefusal(renamed));
      case 'nameless':
      case 'taken':
      case 'yours-already':
        return refused({
          field: 'to',
          message:
            renamed.kind === 'nameless' ? 'The new name cannot be seen.' : `"${to}" is the name of another bike.`,
          allowed: `a free name of 1 to ${LIMITS.bikeName} characters`,
          example: `bike rename ${from} ${to}-2`,
        });
    }
  },
};

const forget: Action = {
  name: 'forget',
  summary: 'Forget one of your bikes',
  moderators: false,
  public: false,
  fields: [NAME],
  run: async ({ name = '' }, visit) => {
    const gone = await visit.records.bikes.forget(visit.who, name);
    if (gone === null) return refused(noSuchBike(name));
    return kept(`Forgotten: ${gone.name}. To keep it again: bike save ${gone.name} and its line.`, [gone]);
  },
};

/** Bikes kept under a name, so that nobody types the same line twice. */
export const bike: KeptCommand = {
  name: 'bike',
  summary: 'Keep bikes under a name and ask about them with bike=name',
  actions: [save, show, list, share, rename, forget],
};
