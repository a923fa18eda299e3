import { type Card, SECTION_TITLES, type Section } from '../../src/card/card.ts';

/** The sections of a card that can be opened by their name, in the order they stand on it. */
export function sectionsOf(card: Card): readonly Section[] {
  return [...new Set(card.blocks.filter((block) => block.kind !== 'caution').map((block) => block.section))];
}

/** The word to type for a section: its heading where that is one word, its name else. */
export function wordFor(section: Section): string {
  if (section === 'summary') return section;
  const title = SECTION_TITLES[section];
  return title.includes(' ') ? section : title.toLowerCase();
}

/** The section of the card that a typed word names. */
export function sectionNamed(typed: string, card: Card): Section | undefined {
  const word = typed.toLowerCase();
  return sectionsOf(card).find(
    (section) => word === section || word === wordFor(section) || word === SECTION_TITLES[section].toLowerCase(),
  );
}

/** What fits a small screen: the answer, what was read, the short lines and every caution; the rest by its names. */
export function shortCard(card: Card): Card {
  const more = sectionsOf(card).map(wordFor);
  const cautions = card.blocks.filter((block) => block.kind === 'caution');
  if (more.length === 0) return card;
  return {
    ...card,
    blocks: [
      ...cautions.map((block) => ({ ...block, section: 'summary' as const })),
      { kind: 'text', section: 'summary', lines: [`More: ${more.join(', ')}, or all.`] },
    ],
  };
}
