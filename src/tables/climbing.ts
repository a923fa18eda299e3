import type { Row } from './row.ts';

type Constant = { readonly value: number; readonly unit: string };

/** The fixed figures of the road-power model. */
export const ROAD_POWER = {
  gravity: {
    value: 9.81,
    unit: 'm/s²',
    basis: 'published',
    cite: { source: 'Martin1998', locator: 'potential energy term' },
  },
  airDensity: {
    value: 1.2234,
    unit: 'kg/m³',
    basis: 'published',
    cite: { source: 'Martin1998', locator: 'aerodynamic term' },
  },
  wheelDragArea: {
    value: 0.0044,
    unit: 'm²',
    basis: 'published',
    cite: { source: 'Martin1998', locator: 'wheel rotation term, Fw' },
  },
  wheelInertia: {
    value: 0.14,
    unit: 'kg·m²',
    basis: 'published',
    cite: { source: 'Martin1998', locator: 'kinetic energy term, I' },
  },
  wheelRadius: {
    value: 0.311,
    unit: 'm',
    basis: 'published',
    cite: { source: 'Martin1998', locator: 'kinetic energy term, r' },
  },
  efficiency: {
    value: 0.976,
    unit: '1',
    basis: 'published',
    cite: { source: 'Martin1998', locator: 'chain efficiency, Ec' },
  },
  bearingConstant: {
    value: 0.091,
    unit: 'N',
    basis: 'published',
    cite: { source: 'Martin1998', locator: 'bearing term, 91 × 10⁻³' },
  },
  bearingPerSpeed: {
    value: 0.0087,
    unit: 'N·s/m',
    basis: 'published',
    cite: { source: 'Martin1998', locator: 'bearing term, 8.7 × 10⁻³' },
  },
} as const satisfies Record<string, Row<Constant>>;

type Spread = { readonly low: number; readonly typical: number; readonly high: number };

/** Rolling resistance by ground [1]. Tyre pressure moves it as much as the ground does. */
// biome-ignore format: aligned columns read as a table
export const ROLLING_COEFFICIENTS = {
  smooth: { low: 0.003, typical: 0.005, high: 0.007, basis: 'memory' },
  mixed:  { low: 0.005, typical: 0.008, high: 0.012, basis: 'memory' },
  rough:  { low: 0.009, typical: 0.012, high: 0.02,  basis: 'memory' },
} as const satisfies Record<string, Row<Spread>>;

/** Drag area of rider and bicycle by handlebar [m²]: hands on the hoods, or upright on a trail bike. */
// biome-ignore format: aligned columns read as a table
export const DRAG_AREAS = {
  drop: { low: 0.28, typical: 0.32, high: 0.38, basis: 'memory' },
  flat: { low: 0.4,  typical: 0.5,  high: 0.65, basis: 'memory' },
} as const satisfies Record<string, Row<Spread>>;

/** Masses to reckon with when none is told [kg]. */
// biome-ignore format: aligned columns read as a table
export const CLIMBING_MASSES = {
  rider: { low: 50, typical: 75, high: 110, basis: 'memory' },
  bike:  { low: 8,  typical: 13, high: 20,  basis: 'memory' },
  /** With battery and motor. */
  assistedBike: { low: 15, typical: 23, high: 32, basis: 'memory' },
} as const satisfies Record<string, Row<Spread>>;
