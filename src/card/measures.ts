import { SPROCKET_GEOMETRY } from '../tables/sprocket-geometry.ts';
import { UNIT_FACTORS } from '../tables/unit-factors.ts';

const MM_PER_INCH = UNIT_FACTORS.mmPerInch.factor;
const NM_PER_INLBF = UNIT_FACTORS.nmPerInLbf.factor;
const KM_PER_MILE = UNIT_FACTORS.kmPerMile.factor;
const G_PER_OUNCE = UNIT_FACTORS.gramsPerOunce.factor;
const PITCH_MM = SPROCKET_GEOMETRY.pitch.value;

/** `decimals` places at most, trailing zeros dropped, a true minus sign: 440, 73.5, −3. */
export function plain(value: number, decimals: number): string {
  // Most figures are whole, and have nothing to drop.
  const fixed = Number.isInteger(value) ? String(value) : value.toFixed(decimals);
  const trimmed = decimals > 0 && fixed.includes('.') ? fixed.replace(/\.?0+$/, '') : fixed;
  if (trimmed === '-0') return '0';
  return trimmed.startsWith('-') ? `−${trimmed.slice(1)}` : trimmed;
}

/** "An" before a figure that is spoken with a vowel first, 11, 18 or eighty and eight hundred; "a" before any other. */
export function article(value: number): 'a' | 'an' {
  return /^(?:8|11(?!\d)|18(?!\d))/.test(plain(value, 1)) ? 'an' : 'a';
}

/** "440 mm (17.3 in)". */
export function length(mm: number): string {
  const inches = mm / MM_PER_INCH;
  return `${plain(mm, 1)} mm (${plain(inches, inches < 10 ? 2 : 1)} in)`;
}

/** A gear ratio to two places, as cyclists print it: "0.89". */
export function ratio(value: number): string {
  return value.toFixed(2);
}

/** A change with its sign: "+45 %", "−17 %", "±0 %". */
export function change(pct: number): string {
  const whole = Math.round(pct);
  if (whole === 0) return '±0 %';
  return whole > 0 ? `+${whole} %` : `−${-whole} %`;
}

/** "42.6 km/h (26.5 mph)". */
export function speed(kmh: number): string {
  return `${kmh.toFixed(1)} km/h (${(kmh / KM_PER_MILE).toFixed(1)} mph)`;
}

/** "106 pitches (53 pairs, 1346.2 mm)"; an odd count has no pairs to name. Never a bare "link". */
export function pitches(count: number): string {
  const mm = `${plain(count * PITCH_MM, 1)} mm`;
  if (count % 2 !== 0) return `${count} pitches (${mm})`;
  const pairs = count / 2;
  return `${count} pitches (${pairs} ${pairs === 1 ? 'pair' : 'pairs'}, ${mm})`;
}

/** "12–15 N·m (106–133 lbf·in)". */
export function torqueRange(lowNm: number, highNm: number): string {
  const low = lowNm / NM_PER_INLBF;
  const high = highNm / NM_PER_INLBF;
  const places = high < 20 ? 1 : 0;
  return `${plain(lowNm, 1)}–${plain(highNm, 1)} N·m (${plain(low, places)}–${plain(high, places)} lbf·in)`;
}

/** "13.5 N·m (119 lbf·in)". */
export function torque(nm: number): string {
  const inLbf = nm / NM_PER_INLBF;
  return `${plain(nm, 2)} N·m (${plain(inLbf, inLbf < 20 ? 1 : 0)} lbf·in)`;
}

/** "358 g (12.6 oz)". */
export function mass(grams: number): string {
  return `${plain(grams, 0)} g (${plain(grams / G_PER_OUNCE, 1)} oz)`;
}
