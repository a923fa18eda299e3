import { asks, type Phrasing, reads } from './phrasing.ts';

/** Who rides it, how hard, and the units they want. */
export const RIDERS: readonly Phrasing[] = [
  reads('rider 75 kg', { riderKg: 75 }),
  reads('75 kg rider', { riderKg: 75 }),
  reads('75kg rider, 200 W', { riderKg: 75, powerW: 200 }),
  // 165 lb × 0.45359237 = 74.84 kg.
  reads('rider=165lb', { riderKg: 74.8427 }),
  reads('bikeweight 13 kg', { bikeKg: 13 }),
  reads('13 kg bike', { bikeKg: 13 }),
  reads('rider 80kg, bike 12,5kg', { riderKg: 80, bikeKg: 12.5 }),
  reads('200 W', { powerW: 200 }),
  reads('200W', { powerW: 200 }),
  reads('250 watts', { powerW: 250 }),
  reads('power 180', { powerW: 180 }),
  reads('85 rpm', { cadenceRpm: 85 }),
  reads('85rpm', { cadenceRpm: 85 }),
  reads('cadence 85', { cadenceRpm: 85 }),
  reads('cadence 90 rpm', { cadenceRpm: 90 }),
  reads('imperial', { units: 'imperial' }),
  reads('metric please', { units: 'metric' }),
  asks('cadence=85 90 rpm', ['cadence']),
  asks('rider=75 rider=80', ['rider']),
  asks('power=200 250 W', ['power']),
  asks('units=metric imperial', ['units']),
];
