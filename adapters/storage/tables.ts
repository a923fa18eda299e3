import type { ColumnType, Generated } from 'kysely';

/**
 * The place of a row. No query writes or reads it by itself: {@link inPlace} puts it into every insert and every
 * condition, so its type allows neither.
 */
type PlaceColumn = ColumnType<string, never, never>;

/** Yes and no as both engines can index them. */
export type Flag = 0 | 1;

/**
 * What a person typed is kept inside a `content` column, as JSON: its escapes carry every character there is, also those
 * that one of the engines cannot keep as text (U+0000, half a surrogate pair). Columns beside it are what is looked for.
 *
 * `owner`, `author`, `approver`, `decider`, `by` and `key` hold the random key of a person; only `people` knows whose.
 */
export type Tables = {
  /** `after_gone` is the number of whoever was deleted last in the place before this person was first seen, or 0. */
  people: { place: PlaceColumn; person: string; key: string; seen_at: number; after_gone: Generated<number> };
  bikes: { place: PlaceColumn; owner: string; name_key: string; shared: Flag; saved_at: number; content: string };
  answers: {
    id: Generated<number>;
    place: PlaceColumn;
    topic: string;
    version: number;
    pinned: Flag;
    asks: Flag;
  };
  answer_names: { place: PlaceColumn; name: string; topic: string };
  answer_versions: {
    place: PlaceColumn;
    topic: string;
    version: number;
    deed: 'pin' | 'edit' | 'restore' | 'unpin';
    restored: number | null;
    author: string;
    approver: string | null;
    at: number;
    content: string;
  };
  answer_drafts: {
    place: PlaceColumn;
    topic: string;
    number: number;
    status: 'open' | 'approved' | 'declined';
    deed: 'pin' | 'edit' | 'restore';
    restored: number | null;
    based_on: number;
    author: string;
    at: number;
    content: string;
    decider: string | null;
    decided_at: number | null;
    decided_why: string | null;
  };
  jobs: {
    place: PlaceColumn;
    job: number;
    closed: Flag;
    sequence: number;
    opened_at: number;
    closed_at: number | null;
    content: string;
  };
  job_events: { place: PlaceColumn; job: number; sequence: number; by: string; at: number; content: string };
  wrenches: { place: PlaceColumn; wrench: string; due_at: number };
  receipts: { place: PlaceColumn; code: string; owner: string; at: number; content: string };
  settings: { place: PlaceColumn; content: string; changed_by: string; changed_at: number };
  setting_people: { place: PlaceColumn; key: string };
  installations: { place: PlaceColumn; content: string; at: number };
  /** Those deleted who had signed or proposed something, by nothing but their key, numbered in the order of going. */
  gone_people: { place: PlaceColumn; key: string; number: number };
  deliveries: { place: PlaceColumn; delivery: string; taker: string; at: number };
};

/** Every table that holds what people gave, in an order in which they can be filled again. */
export const TABLE_NAMES = [
  'people',
  'bikes',
  'answers',
  'answer_names',
  'answer_versions',
  'answer_drafts',
  'jobs',
  'job_events',
  'wrenches',
  'receipts',
  'settings',
  'setting_people',
  'installations',
  'deliveries',
  'gone_people',
] as const satisfies readonly (keyof Tables)[];
