import { type Block, type Card, SECTION_TITLES, type Section } from './card.ts';

/** What of a card is looked at: the short card, how every number came about, or one section. */
export type View = 'short' | 'why' | Exclude<Section, 'summary'>;

/** What to ask the desk to come to a card again: a command and its line, which names a receipt or reads something kept. */
export type Look = { readonly command: string; readonly setup: string };

/** One view of a card, and which page of it. */
export type Seen = { readonly view: View; readonly page: number };

const VIEWS: readonly View[] = [
  'short',
  'why',
  ...Object.keys(SECTION_TITLES).filter((section): section is Exclude<View, 'short' | 'why'> => section !== 'summary'),
];

/** A view by its name, as a button or a select gives it back; null for none. */
export function readView(name: string): View | null {
  return VIEWS.find((each) => each === name) ?? null;
}

/** The sections that have something to open, in the order they stand on the card. */
export function sectionsOf(card: Card): readonly Exclude<Section, 'summary'>[] {
  const open = card.blocks.filter((block) => block.kind !== 'caution' && block.kind !== 'working');
  return [...new Set(open.map((block) => block.section))].filter((section) => section !== 'summary');
}

/** Whether the card shows how its numbers came about. */
export function hasWhy(card: Card): boolean {
  return card.blocks.some((block) => block.kind === 'working');
}

/** The heading a view is shown under; the short card has its answer instead. */
export function viewTitle(view: Exclude<View, 'short'>): string {
  return view === 'why' ? 'How it is worked out' : SECTION_TITLES[view];
}

/**
 * The blocks of one view. The short card keeps what belongs to no section, every stop caution, the safety words, and the
 * cautions of a section with nothing else to open: what a person must read whatever else they open. A section keeps its own cautions and leaves the working to `why`.
 */
export function viewBlocks(card: Card, view: View): readonly Block[] {
  switch (view) {
    case 'short': {
      const open = new Set<Section>(sectionsOf(card));
      return card.blocks.filter(
        ({ section, kind }) =>
          section === 'summary' || (kind === 'caution' && (section === 'safety' || !open.has(section))),
      );
    }
    case 'why':
      return card.blocks.filter((block) => block.kind === 'working');
    default:
      return card.blocks.filter((block) => block.section === view && block.kind !== 'working');
  }
}
