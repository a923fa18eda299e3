import type { Row } from './row.ts';

type UnitFactor = { readonly from: string; readonly to: string; readonly factor: number };

/** Exact or printed conversion factors: multiply a value in `from` to get `to`. */
export const UNIT_FACTORS = {
  mmPerInch: {
    from: 'in',
    to: 'mm',
    factor: 25.4,
    basis: 'published',
    cite: { source: 'NIST811', locator: 'B.8, inch' },
  },
  kmPerMile: {
    from: 'mi',
    to: 'km',
    factor: 1.609344,
    basis: 'published',
    cite: { source: 'NIST811', locator: 'B.8, mile' },
  },
  nmPerInLbf: {
    from: 'lbf·in',
    to: 'N·m',
    factor: 0.1129848,
    basis: 'published',
    cite: { source: 'NIST811', locator: 'B.8, pound-force inch' },
  },
  gramsPerOunce: {
    from: 'oz',
    to: 'g',
    factor: 28.34952,
    basis: 'published',
    cite: { source: 'NIST811', locator: 'B.8, ounce (avoirdupois)' },
  },
  kgPerPound: {
    from: 'lb',
    to: 'kg',
    factor: 0.45359237,
    basis: 'published',
    cite: { source: 'NIST811', locator: 'B.8, pound (avoirdupois)' },
  },
} as const satisfies Record<string, Row<UnitFactor>>;
