import type { Bike, Wheel } from './bike.ts';
import { cassetteText } from './value-text.ts';

/** Says a bike back in one line that reads as the same bike again. */
export function sayBack(bike: Bike): string {
  const said: string[] = [];
  const { rings, speeds } = bike;
  const byLayout = rings !== undefined && rings.length > 1 && speeds !== undefined;
  if (byLayout) said.push(`${rings.length}x${speeds}`);
  if (rings !== undefined) said.push(`rings ${rings.join('/')}`);
  if (bike.cassette !== undefined) said.push(`cassette ${cassetteText(bike.cassette)}`);
  if (speeds !== undefined && !byLayout) said.push(`${speeds} sprockets`);
  say(said, bike.ringTeeth, (teeth) => `wanted ring ${teeth}`);
  if (bike.newCassette !== undefined) said.push(`new cassette ${cassetteText(bike.newCassette)}`);
  say(said, bike.bcdMm, (mm) => `${mm} mm circle`);
  say(said, bike.innerBcdMm, (mm) => `inner circle ${mm} mm`);
  say(said, bike.bolts, (count) => `${count} bolts`);
  if (bike.gapsMm !== undefined) said.push(`gap=${bike.gapsMm.join('/')} mm`);
  if (bike.pattern !== undefined) said.push(`${bike.pattern} bolt pattern`);
  say(said, bike.sharingRings, (count) => `sharing ${count}`);
  if (bike.mount !== undefined) said.push(bike.mount === 'direct' ? 'direct mount' : bike.mount);
  say(said, bike.offsetMm, (mm) => `offset=${mm} mm`);
  say(said, bike.maxRingTeeth, (teeth) => `max ring ${teeth}`);
  if (bike.wheel !== undefined) said.push(sayWheel(bike.wheel));
  say(said, bike.stayMm, (mm) => `stays ${mm} mm`);
  say(said, bike.longestMm, (mm) => `longest ${mm} mm`);
  if (bike.suspension !== undefined) said.push(bike.suspension === 'none' ? 'hardtail' : 'rear suspension');
  say(said, bike.chainPitches, sayChain);
  if (bike.join !== undefined) said.push(`joining ${bike.join}`);
  say(said, bike.allowancePitches, (pitches) => `allowance=${pitches} pitches`);
  say(said, bike.chainlineMm, (mm) => `chainline ${mm} mm`);
  say(said, bike.hubMm, (mm) => `hub ${mm} mm`);
  say(said, bike.maxSprocketTeeth, (teeth) => `mech takes up to ${teeth}`);
  say(said, bike.minSprocketTeeth, (teeth) => `largest sprocket at least ${teeth}`);
  say(said, bike.capacityTeeth, (teeth) => `capacity ${teeth}`);
  if (bike.cage !== undefined) said.push(`${bike.cage} cage`);
  if (bike.clutch !== undefined) said.push(bike.clutch ? 'clutch' : 'no clutch');
  if (bike.guide !== undefined) said.push(bike.guide ? 'chain guide' : 'no chain guide');
  if (bike.ground !== undefined) said.push(`${bike.ground} ground`);
  if (bike.terrain !== undefined) said.push(bike.terrain === 'hills' ? 'hills' : `${bike.terrain} terrain`);
  sayRest(said, bike);
  return said.join(', ');
}

/** What few riders tell. */
function sayRest(said: string[], bike: Bike): void {
  say(said, bike.riderKg, (kg) => `rider ${kg} kg`);
  say(said, bike.bikeKg, (kg) => `bicycle ${kg} kg`);
  say(said, bike.powerW, (watts) => `power ${watts} W`);
  say(said, bike.cadenceRpm, (rpm) => `cadence ${rpm} rpm`);
  say(said, bike.crankMm, (mm) => `crank ${mm} mm`);
  if (bike.crankType !== undefined) said.push(CRANK_TYPES[bike.crankType]);
  if (bike.boltMaterial !== undefined) said.push(`${bike.boltMaterial} ring bolts`);
  if (bike.bar !== undefined) said.push(`${bike.bar} bar`);
  if (bike.assist !== undefined) said.push(ASSISTS[bike.assist]);
  if (bike.tandem !== undefined) said.push(bike.tandem ? 'tandem' : 'not a tandem');
  say(said, bike.ovalityPct, (pct) => `oval ${pct} %`);
  say(said, bike.ringTabMm, (mm) => `ring tab ${mm} mm`);
  say(said, bike.spiderTabMm, (mm) => `crank tab ${mm} mm`);
  say(said, bike.sleeveMm, (mm) => `sleeve ${mm} mm`);
  say(said, bike.wrenchMm, (mm) => `wrench ${mm} mm`);
  say(said, bike.extensionMm, (mm) => `extension ${mm} mm`);
  say(said, bike.angleDeg, (degrees) => `angle ${degrees} °`);
  say(said, bike.wearPct, (pct) => `chain wear ${pct} %`);
  if (bike.units !== undefined) said.push(bike.units);
}

const CRANK_TYPES = { pinch: 'pinch bolts', taper: 'square taper', splined: 'splined axle' } as const;

const ASSISTS = {
  none: 'no pedal assist',
  hub: 'hub motor',
  'mid-drive': 'mid-drive motor',
  yes: 'pedal assist',
} as const;

function say(said: string[], value: number | undefined, words: (value: number) => string): void {
  if (value !== undefined) said.push(words(value));
}

function sayWheel(wheel: Wheel): string {
  switch (wheel.kind) {
    case 'rollout':
      return `roll-out ${wheel.circumferenceMm} mm`;
    case 'tyre':
      return `${wheel.widthMm}-${wheel.beadSeatMm}`;
    case 'rim':
      return `rim ${wheel.beadSeatMm} mm`;
  }
}

/** Counted in pitches, and in pairs where it closes, because riders count either. */
function sayChain(pitches: number): string {
  return pitches % 2 === 0 ? `chain ${pitches} pitches (${pitches / 2} pairs)` : `chain ${pitches} pitches`;
}
