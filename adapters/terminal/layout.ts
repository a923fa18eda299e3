import type { WorkingStep } from '../../src/card/card.ts';
import { inert } from '../../src/inert.ts';
import { columnsOf, wrapped } from './columns.ts';

/** Stands for a space that no line may break at; a plain space again in what is printed. */
const FIRM_SPACE = '\u00a0';

/** A number and its unit stay on one line, and no line begins with a separator. */
const NUMBER_THEN_UNIT =
  /(?<=\d) (?=(?:%|mm|cm|m|in|km\/h|mph|N·m|lbf·in|g|oz|kg|lb|W|rpm|T|pitch(?:es)?|pairs?)(?![\w/]))/g;
const BEFORE_SEPARATOR = / (?=[·—=] )/g;

/** Words that belong together, as long as they leave room for others on a line. */
export function firm(text: string, width: number | null): string {
  return width !== null && columnsOf(text) > width / 2 ? text : text.replaceAll(' ', FIRM_SPACE);
}

/**
 * One paragraph as lines of at most `width` columns, made inert on the way. The first line starts with `first`, the
 * others hang under it; without a width it is one line however long.
 */
export function paragraph(
  text: string,
  width: number | null,
  first = '',
  rest = ' '.repeat(columnsOf(first)),
): string[] {
  const safe = inert(text);
  if (width === null) return [(first + safe).replaceAll(FIRM_SPACE, ' ')];
  const kept = safe.replace(NUMBER_THEN_UNIT, FIRM_SPACE).replace(BEFORE_SEPARATOR, FIRM_SPACE);
  const room = width - Math.max(columnsOf(first), columnsOf(rest));
  return wrapped(kept, room).map((line, index) =>
    ((index === 0 ? first : rest) + line).replaceAll(FIRM_SPACE, ' ').trimEnd(),
  );
}

/** A title that leads on to what follows: a colon, unless it ends in a mark of its own. */
export function headed(title: string): string {
  return /[?:.!]$/.test(title) ? title : `${title}:`;
}

/** A quantity with its formula; one that already is an equation follows a colon. */
export function defined({ quantity, formula }: WorkingStep): string {
  return formula.includes(' = ') ? `${quantity}: ${formula}` : `${quantity} = ${formula}`;
}
