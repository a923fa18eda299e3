import { KEY_NAMES } from './fields.ts';
import type { KeyName } from './keys.ts';

/** Other names people put before an equals sign, written without spaces and hyphens. */
const ALSO: Partial<Record<KeyName, string>> = {
  rings: 'chainrings chainring front fronts chainset crankset ringset currentrings oldrings ringsnow',
  cassette: 'rear cogs freewheel block sprockets cluster back currentcassette oldcassette cassettenow',
  speeds: 'speed spd sprocketcount gears',
  ring: 'wanted want wantedring newring target targetring newchainring singlering',
  newcassette: 'wantedcassette targetcassette newcogs',
  bcd: 'outerbcd outerpcd outercircle pcd boltcircle boltcirclediameter circle',
  innerbcd: 'innerpcd innercircle innerboltcircle grannybcd grannycircle secondbcd smallbcd',
  bolts: 'bolt arms arm boltcount',
  gap: 'gaps holegap boltgap boltspacing holespacing',
  pattern: 'asym holepattern',
  mount: 'mounting ringmount',
  offset: 'ringoffset',
  maxring: 'largestring biggestring maxchainring',
  wheel: 'wheels tyre tire tyres tires rearwheel wheelsize rollout circumference',
  stays: 'stay chainstay chainstays chainstaylength cs',
  longest: 'longeststay longestchainstay atlongest',
  suspension: 'rearsuspension',
  chain: 'chainlength links pitches chainpitches chainlinks',
  join: 'joint chainjoin joining',
  hub: 'hubwidth rearhub oln',
  maxcog: 'maxsprocket largestcog biggestcog mechmax',
  mincog: 'minsprocket',
  capacity: 'mechcapacity totalcapacity',
  cage: 'mechcage cagelength',
  guide: 'chainguide',
  rider: 'riders bothriders riderweight riderkg weight me',
  bikeweight: 'bikekg bicycleweight',
  power: 'watts ftp',
  cadence: 'rpm',
  crank: 'crankarm crankarms cranklength cranks',
  boltmaterial: 'ringboltmaterial',
  bar: 'bars handlebar handlebars',
  assist: 'ebike pedalassist motor pedelec',
  oval: 'ovality',
  wear: 'chainwear stretch',
  units: 'unit',
};

/** Rings and sprockets told one by one: the part of a set, not the whole of it. */
export const PART_NAMES = new Map<string, 'ring' | 'smallest' | 'largest'>([
  ...['bigring', 'outerring', 'outer', 'big', 'middlering', 'middle', 'smallring', 'innerring', 'inner', 'granny'].map(
    (name) => [name, 'ring'] as const,
  ),
  ...['smallestcog', 'smallcog', 'smallestsprocket', 'topcog'].map((name) => [name, 'smallest'] as const),
  ...['bigcog', 'largestsprocket', 'biggestsprocket', 'dinnerplate'].map((name) => [name, 'largest'] as const),
]);

const NAMES = new Map<string, KeyName>(KEY_NAMES.map((name) => [name, name]));
for (const name of KEY_NAMES) for (const other of ALSO[name]?.split(' ') ?? []) NAMES.set(other, name);

/** The key a name stands for; hyphens, underscores and spaces in it mean nothing. */
export function keyNamed(name: string): KeyName | undefined {
  return NAMES.get(name) ?? (LETTERS.test(name) ? undefined : NAMES.get(name.replace(JOINTS, '')));
}

/** Every name a key goes by, for naming the nearest one. */
export const ALL_KEY_NAMES: readonly string[] = [...NAMES.keys()];

const LETTERS = /^[a-z]*$/;
const JOINTS = /[-_\s]+/g;
