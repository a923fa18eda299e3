import { describe, expect, it } from 'vitest';
import { roadPower } from '../../src/solve/climb.ts';

const off = (ours: number, printed: number): number => Math.abs(ours - printed);

describe('Martin1998: worked example', () => {
  const power = roadPower({
    speedMs: 8.36,
    airSpeedMs: 10.91,
    massKg: 90,
    gradePct: 0.3,
    dragAreaM2: 0.2565,
    rollingCoefficient: 0.0032,
    change: { fromMs: 8.28, toMs: 8.45, seconds: 56.42 },
  });

  it.each([
    ['air', power.airW, 158.8],
    ['rolling', power.rollingW, 23.6],
    ['bearings', power.bearingsW, 1.4],
    ['gravity', power.gravityW, 22.1],
    ['kinetic', power.kineticW, 2.3],
    ['the sum', power.wheelW, 208.2],
  ])('prints the term of %s', (_term, ours, printed) => {
    expect(off(ours, printed)).toBeLessThanOrEqual(0.05);
  });

  it('prints 213.3 W for the rider, from the rounded sum', () => {
    // 208.2 / 0.976 = 213.32; the unrounded sum 208.24 gives 213.36. A tenth covers the rounding between.
    expect(off(power.riderW, 213.3)).toBeLessThanOrEqual(0.1);
  });
});

describe('Martin1998: second example', () => {
  it('prints 255 W for 81.9 kg on the level at 11 m/s with a drag area of 0.264 m²', () => {
    const { riderW } = roadPower({
      speedMs: 11,
      airSpeedMs: 11,
      massKg: 81.9,
      gradePct: 0,
      dragAreaM2: 0.264,
      rollingCoefficient: 0.0032,
      change: null,
    });
    expect(off(riderW, 255)).toBeLessThanOrEqual(0.5);
  });
});

describe('PowerPage: 110 kg on a hill of 13.3 % at 5 mph', () => {
  it('prints 317.672 W for gravity alone, with g = 9.80', () => {
    const speedMs = (5 * 1609.344) / 3600;
    const { gravityW } = roadPower({
      speedMs,
      airSpeedMs: speedMs,
      massKg: 110,
      gradePct: 13.3,
      dragAreaM2: 0.5,
      rollingCoefficient: 0.005,
      change: null,
    });
    // Ours reckons with g = 9.81.
    expect(off((gravityW * 9.8) / 9.81, 317.672)).toBeLessThanOrEqual(0.0005);
  });
});
