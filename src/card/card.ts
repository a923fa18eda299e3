import type { Figure } from '../draw/figure.ts';

/**
 * The neutral answer: plain data, no platform's words, nothing escaped. An adapter turns it into its platform's shape
 * and escapes every string as its very last step.
 *
 * Limits every author keeps: `answer` has at most 120 characters (it is the notification text too), `lines` has at
 * most five entries. Cautions may be paged by an adapter, never dropped.
 */
export type Card = {
  /** The answer in one line; complete on its own. */
  readonly answer: string;
  /** What was read, what was assumed and what was not understood, in one line; empty where no bike was told. */
  readonly readBack: string;
  /** The few facts that matter most. */
  readonly lines: readonly string[];
  /** Everything else, in reading order; stop-riding cautions come first. */
  readonly blocks: readonly Block[];
};

/** The part of the answer a block belongs to; chat adapters open one section behind one button. */
export type Section =
  | 'summary'
  | 'gears'
  | 'chain'
  | 'mount'
  | 'chainline'
  | 'derailleur'
  | 'retention'
  | 'torque'
  | 'weight'
  | 'wear'
  | 'trial'
  | 'work'
  | 'safety'
  | 'kept'
  | 'help';

/** The section names in reading order, with the heading each is shown under. */
export const SECTION_TITLES: Readonly<Record<Section, string>> = {
  summary: 'In short',
  gears: 'Gears',
  chain: 'Chain',
  mount: 'Bolts',
  chainline: 'Chainline',
  derailleur: 'Rear derailleur',
  retention: 'Keeping the chain on',
  torque: 'Torque',
  weight: 'Weight',
  wear: 'Wear',
  trial: 'Try it first',
  work: 'The work',
  safety: 'Before you ride',
  kept: 'Kept here',
  help: 'Help',
};

export type Block = TextBlock | TableBlock | ChecklistBlock | CautionBlock | ActionsBlock | WorkingBlock | FigureBlock;

/** Short paragraphs or labelled lines. */
export type TextBlock = {
  readonly kind: 'text';
  readonly section: Section;
  readonly title?: string;
  readonly lines: readonly string[];
};

/** Rows of short cells; the first column names the row. A narrow screen shows one row as one paragraph. */
export type TableBlock = {
  readonly kind: 'table';
  readonly section: Section;
  readonly title: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
};

/** Things to do or to tick off, in order. */
export type ChecklistBlock = {
  readonly kind: 'checklist';
  readonly section: Section;
  readonly title: string;
  readonly items: readonly { readonly text: string; readonly detail?: string }[];
};

/** A warning. `stop` means: do not ride, or do not cut, until this is settled. No renderer may drop either. */
export type CautionBlock = {
  readonly kind: 'caution';
  readonly section: Section;
  readonly level: 'stop' | 'care';
  readonly text: string;
};

/** What the reader can do next: each action is a label and the words to add to the setup line. */
export type ActionsBlock = {
  readonly kind: 'actions';
  readonly section: Section;
  readonly title: string;
  readonly actions: readonly { readonly label: string; readonly setup: string }[];
};

/**
 * A picture as its numbers; an adapter has it drawn, or shows `alt` where it cannot. `alt` says everything the picture
 * says, in at most 1000 characters.
 */
export type FigureBlock = {
  readonly kind: 'figure';
  readonly section: Section;
  readonly title: string;
  readonly alt: string;
  readonly figure: Figure;
};

/** How a figure came about: the formula as printed, the reader's own numbers in it, the result, and who says so. */
export type WorkingBlock = {
  readonly kind: 'working';
  readonly section: Section;
  readonly steps: readonly WorkingStep[];
};

export type WorkingStep = {
  readonly quantity: string;
  readonly formula: string;
  readonly numbers: string;
  readonly result: string;
  readonly source: string;
};
