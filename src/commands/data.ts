import { DATA_PARTS, type DataPart, dataPartWords, dataWords, deletedWords, deletePreviewWords } from '../card/data.ts';
import type { Action, KeptCommand } from './kept.ts';

function partOf(text: string | undefined): DataPart | undefined {
  return DATA_PARTS.find((each) => each === text?.toLowerCase());
}

const show: Action = {
  name: 'show',
  summary: 'Everything that is kept about you here',
  moderators: false,
  public: false,
  fields: [
    {
      name: 'part',
      label: 'One kind of it',
      form: 'choice',
      required: false,
      choices: DATA_PARTS,
      example: 'receipts',
    },
    { name: 'page', label: 'Page', form: 'whole', required: false, example: 'page=2' },
  ],
  run: async ({ part, page = '1' }, visit) => {
    const about = await visit.records.privacy.show(visit.who);
    const one = partOf(part);
    const words = one === undefined ? dataWords(about) : dataPartWords(about, one, Math.max(1, Number(page)));
    return { kind: 'done', words, result: { data: about } };
  },
};

const remove: Action = {
  name: 'delete',
  summary: 'Delete what is kept about you here; says first what that would do',
  moderators: false,
  public: false,
  fields: [{ name: 'confirm', label: 'Really delete', form: 'yes-no', required: false, example: 'confirm=yes' }],
  run: async ({ confirm = 'no' }, visit) => {
    if (confirm.toLowerCase() !== 'yes') {
      const about = await visit.records.privacy.show(visit.who);
      return { kind: 'done', words: deletePreviewWords(about), result: { deleted: null } };
    }
    const deleted = await visit.records.privacy.delete(visit.who);
    return { kind: 'done', words: deletedWords(deleted), result: { deleted } };
  },
};

/** What is kept about the asker, and its end. */
export const data: KeptCommand = {
  name: 'data',
  summary: 'See everything that is kept about you here, or have it deleted',
  actions: [show, remove],
};
