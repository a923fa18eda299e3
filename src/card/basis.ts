import type { Basis } from '../tables/row.ts';
import { SOURCES } from '../tables/sources.ts';

/** Who stands behind a row, and where it says so. */
export function sourceWords(row: Basis): string {
  switch (row.basis) {
    case 'published':
      return `${SOURCES[row.cite.source]}, ${row.cite.locator}`;
    case 'calculated':
      return row.cite === undefined ? 'calculated' : `calculated from ${SOURCES[row.cite.source]}, ${row.cite.locator}`;
    case 'common-practice':
      return 'common practice';
    case 'memory':
      return 'a typical figure (memory), not verified';
  }
}

/** Who stands behind a row, in the few words a checklist has room for. */
export function shortSource(row: Basis): string {
  if (row.basis === 'memory') return 'memory: a typical figure, not verified';
  return row.basis === 'common-practice' || row.cite === undefined ? 'common practice' : SOURCES[row.cite.source];
}
