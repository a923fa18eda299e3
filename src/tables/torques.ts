import type { ThreadName } from './bolt-strength.ts';
import type { Row } from './row.ts';

/** The step of the job that touches a fastener: it decides who is shown the row, and under what condition. */
export type TorqueStep =
  | 'ring-bolts-aluminium'
  | 'ring-bolts-steel'
  | 'drive-unit'
  | 'hub-motor'
  | 'direct-mount'
  | 'crank-pinch'
  | 'crank-taper'
  | 'crank-splined'
  | 'rear-derailleur'
  | 'new-cassette'
  | 'flat-bar'
  | 'drop-bar'
  | 'going-back'
  | 'only-if-loosened';

/** What to watch for at this fastener; the words are the card's. */
export type TorqueCaution =
  | 'star'
  | 'bottoming'
  | 'alternate'
  | 'cap-first'
  | 'by-hand'
  | 'own-bolt'
  | 'second-person'
  | 'maker-only'
  | 'twin-angle'
  | 'small-screw'
  | 'carbon'
  | 'only-if-moved';

type Range = { readonly lowNm: number; readonly highNm: number };

export type Torque = {
  readonly key: string;
  readonly fastener: string;
  readonly material: string;
  /** Null where only the part's own maker can say. */
  readonly lowNm: number | null;
  readonly highNm: number | null;
  /** Set where the bolt is solid steel with a coarse thread, so that the standard's proof loads apply. */
  readonly thread: ThreadName | null;
  readonly step: TorqueStep;
  readonly cautions: readonly TorqueCaution[];
  /** Other ranges in print that differ from this one. */
  readonly elsewhere: readonly Row<Range>[];
};

/**
 * Tightening torques of the fasteners a conversion touches, and of those near it that somebody may loosen. Each is one
 * printed range out of several: the figure on the part or in its maker's manual wins over every row here.
 *
 * Threads of pinch bolts, cable anchors and lever clamps are typical sizes (memory): measure yours.
 */
// torques in N·m as printed; null where only the maker's figure counts
export const TORQUES = [
  {
    key: 'ring-bolts-aluminium',
    fastener: 'Ring bolts',
    material: 'aluminium',
    lowNm: 8,
    highNm: 9,
    thread: null,
    step: 'ring-bolts-aluminium',
    cautions: ['star', 'bottoming'],
    basis: 'published',
    cite: { source: 'DealerTorque', locator: 'ring bolts, aluminium' },
    elsewhere: [
      {
        lowNm: 5,
        highNm: 9.9,
        basis: 'published',
        cite: { source: 'CargoManual', locator: 'ring bolt (aluminium)' },
      },
    ],
  },
  {
    key: 'ring-bolts-steel',
    fastener: 'Ring bolts',
    material: 'steel',
    lowNm: 12,
    highNm: 14,
    thread: null,
    step: 'ring-bolts-steel',
    cautions: ['star', 'bottoming'],
    basis: 'published',
    cite: { source: 'DealerTorque', locator: 'ring bolts, steel' },
    elsewhere: [
      { lowNm: 7.9, highNm: 10.7, basis: 'published', cite: { source: 'CargoManual', locator: 'ring bolt (steel)' } },
    ],
  },
  {
    key: 'direct-mount-ring',
    fastener: 'Direct-mount ring: screws or lockring',
    material: "see the maker's sheet",
    lowNm: null,
    highNm: null,
    thread: null,
    step: 'direct-mount',
    cautions: ['maker-only'],
    basis: 'memory',
    elsewhere: [{ lowNm: 30, highNm: 50, basis: 'memory' }],
  },
  {
    key: 'drive-unit',
    fastener: 'Ring, lockring, spider and crank arms at the motor',
    material: "see the drive unit maker's sheet",
    lowNm: null,
    highNm: null,
    thread: null,
    step: 'drive-unit',
    cautions: ['maker-only', 'second-person'],
    basis: 'common-practice',
    elsewhere: [],
  },
  {
    key: 'hub-motor-axle',
    fastener: 'Axle nuts of a hub motor',
    material: "see the motor maker's sheet",
    lowNm: null,
    highNm: null,
    thread: null,
    step: 'hub-motor',
    cautions: ['maker-only', 'second-person'],
    basis: 'common-practice',
    elsewhere: [],
  },
  {
    key: 'crank-preload-cap',
    fastener: 'Crank preload cap',
    material: 'plastic or aluminium',
    lowNm: 0.4,
    highNm: 0.7,
    thread: null,
    step: 'crank-pinch',
    cautions: ['cap-first', 'by-hand'],
    basis: 'published',
    cite: { source: 'HomeTorque', locator: 'crank adjusting cap' },
    elsewhere: [
      {
        lowNm: 0.7,
        highNm: 1.5,
        basis: 'published',
        cite: { source: 'HomeTorque', locator: 'crank adjusting cap, another family' },
      },
    ],
  },
  {
    key: 'crank-pinch-bolts',
    fastener: 'Crank pinch bolts (two)',
    material: 'steel',
    lowNm: 12,
    highNm: 15,
    thread: 'M6',
    step: 'crank-pinch',
    cautions: ['alternate', 'own-bolt', 'second-person'],
    basis: 'published',
    cite: { source: 'DealerTorque', locator: 'cranks with double pinch bolts on each arm' },
    elsewhere: [
      { lowNm: 12, highNm: 14, basis: 'memory' },
      {
        lowNm: 9.9,
        highNm: 14.9,
        basis: 'published',
        cite: { source: 'HomeTorque', locator: 'crank bolt pinch screws' },
      },
    ],
  },
  {
    key: 'crank-bolt-taper',
    fastener: 'Crank bolt, square taper',
    material: 'steel',
    lowNm: 34,
    highNm: 44,
    thread: 'M8',
    step: 'crank-taper',
    cautions: ['own-bolt', 'second-person'],
    basis: 'published',
    cite: { source: 'HomeTorque', locator: 'crank bolts' },
    elsewhere: [
      { lowNm: 34.5, highNm: 44.2, basis: 'published', cite: { source: 'CargoManual', locator: 'crank bolts' } },
      {
        lowNm: 38,
        highNm: 42,
        basis: 'published',
        cite: { source: 'DealerTorque', locator: 'cranks with a single M8 bolt on each arm' },
      },
    ],
  },
  {
    key: 'crank-bolt-splined',
    fastener: 'Crank bolt, splined axle',
    material: 'steel or aluminium',
    lowNm: 38,
    highNm: 49,
    thread: null,
    step: 'crank-splined',
    cautions: ['own-bolt', 'second-person'],
    basis: 'published',
    cite: { source: 'HomeTorque', locator: 'crank bolts, lowest and highest of three splined families' },
    elsewhere: [
      {
        lowNm: 39.5,
        highNm: 49.2,
        basis: 'published',
        cite: { source: 'DealerTorque', locator: 'cranks with a single 6 or 8 mm hex bolt on each arm' },
      },
    ],
  },
  {
    key: 'rear-derailleur-fixing',
    fastener: 'Rear derailleur fixing bolt',
    material: 'steel or aluminium',
    lowNm: 7.9,
    highNm: 9.6,
    thread: null,
    step: 'rear-derailleur',
    cautions: [],
    basis: 'published',
    cite: { source: 'DealerTorque', locator: 'rear derailleur mounting bolt' },
    elsewhere: [{ lowNm: 8, highNm: 10, basis: 'memory' }],
  },
  {
    key: 'rear-cable-anchor',
    fastener: 'Rear derailleur cable anchor',
    material: 'steel',
    lowNm: 4,
    highNm: 6,
    thread: 'M5',
    step: 'rear-derailleur',
    cautions: [],
    basis: 'published',
    cite: { source: 'DealerTorque', locator: 'rear derailleur cable clamp bolt, 35–52 lbf·in, to the whole N·m' },
    elsewhere: [],
  },
  {
    key: 'cassette-lockring',
    fastener: 'Cassette lockring',
    material: 'steel or aluminium',
    lowNm: 30,
    highNm: 50,
    thread: null,
    step: 'new-cassette',
    cautions: [],
    basis: 'published',
    cite: { source: 'DealerTorque', locator: 'cassette, lockring' },
    elsewhere: [],
  },
  {
    key: 'brake-lever-flat-hex',
    fastener: 'Brake lever clamp, flat bar, hex screw',
    material: 'steel',
    lowNm: 4,
    highNm: 8,
    thread: 'M5',
    step: 'flat-bar',
    cautions: ['twin-angle', 'small-screw', 'carbon'],
    basis: 'published',
    cite: { source: 'TorqueMagazine', locator: 'brake lever, flat bar, hex screw' },
    elsewhere: [
      {
        lowNm: 6,
        highNm: 8,
        basis: 'published',
        cite: { source: 'OwnerManualLever', locator: 'brake lever clamp screw' },
      },
    ],
  },
  {
    key: 'brake-lever-flat-cross',
    fastener: 'Brake lever clamp, flat bar, cross-head screw',
    material: 'steel',
    lowNm: 2.5,
    highNm: 3,
    thread: null,
    step: 'flat-bar',
    cautions: ['twin-angle', 'small-screw', 'carbon'],
    basis: 'published',
    cite: { source: 'TorqueMagazine', locator: 'brake lever, flat bar, cross-head screw' },
    elsewhere: [],
  },
  {
    key: 'grip-collar',
    fastener: 'Lock-on grip collar',
    material: 'steel screw',
    lowNm: 2,
    highNm: 4,
    thread: null,
    step: 'flat-bar',
    cautions: ['only-if-moved', 'small-screw', 'carbon'],
    basis: 'memory',
    elsewhere: [],
  },
  {
    key: 'brake-lever-drop',
    fastener: 'Brake lever clamp, drop bar',
    material: 'steel',
    lowNm: 5,
    highNm: 8,
    thread: null,
    step: 'drop-bar',
    cautions: ['only-if-moved', 'twin-angle', 'carbon'],
    basis: 'published',
    cite: { source: 'TorqueMagazine', locator: 'brake lever, drop bar' },
    elsewhere: [],
  },
  {
    key: 'front-derailleur-band',
    fastener: 'Front derailleur, band clamp',
    material: 'steel',
    lowNm: 2.8,
    highNm: 4,
    thread: 'M5',
    step: 'going-back',
    cautions: [],
    basis: 'published',
    cite: { source: 'DealerTorque', locator: 'front derailleur band clamp bolt' },
    elsewhere: [],
  },
  {
    key: 'front-derailleur-braze-on',
    fastener: 'Front derailleur, braze-on',
    material: 'steel',
    lowNm: 4.9,
    highNm: 6.8,
    thread: 'M5',
    step: 'going-back',
    cautions: [],
    basis: 'published',
    cite: { source: 'DealerTorque', locator: 'front derailleur braze-on mounting bolt' },
    elsewhere: [],
  },
  {
    key: 'shifter-trigger',
    fastener: 'Trigger shifter clamp',
    material: 'steel',
    lowNm: 3,
    highNm: 8,
    thread: null,
    step: 'going-back',
    cautions: ['small-screw', 'carbon'],
    basis: 'published',
    cite: { source: 'OwnerManualLever', locator: 'trigger shifter clamp screw' },
    elsewhere: [
      {
        lowNm: 6,
        highNm: 8,
        basis: 'published',
        cite: { source: 'OwnerManualLever', locator: 'lever clamp screws' },
      },
    ],
  },
  {
    key: 'shifter-twist',
    fastener: 'Twist shifter clamp',
    material: 'steel',
    lowNm: 2,
    highNm: 3,
    thread: null,
    step: 'going-back',
    cautions: ['small-screw', 'carbon'],
    basis: 'published',
    cite: { source: 'OwnerManualLever', locator: 'twist shifter clamp screw' },
    elsewhere: [],
  },
  {
    key: 'hanger-bolt-small',
    fastener: 'Derailleur hanger, small bolts',
    material: 'steel or aluminium',
    lowNm: 3,
    highNm: 5,
    thread: null,
    step: 'only-if-loosened',
    cautions: [],
    basis: 'memory',
    elsewhere: [],
  },
  {
    key: 'hanger-bolt-large',
    fastener: 'Derailleur hanger, one large bolt',
    material: 'steel or aluminium',
    lowNm: 6,
    highNm: 12,
    thread: null,
    step: 'only-if-loosened',
    cautions: [],
    basis: 'memory',
    elsewhere: [],
  },
  {
    key: 'bottom-bracket-cups',
    fastener: 'Bottom-bracket cups',
    material: 'aluminium',
    lowNm: 34.5,
    highNm: 49.1,
    thread: null,
    step: 'only-if-loosened',
    cautions: ['second-person'],
    basis: 'published',
    cite: { source: 'HomeTorque', locator: 'bottom brackets, bearing cups' },
    elsewhere: [
      {
        lowNm: 33.9,
        highNm: 40.7,
        basis: 'calculated',
        cite: { source: 'DealerTorque', locator: 'bottom bracket cups, from 300–360 lbf·in (its 32.9 N·m is a slip)' },
      },
    ],
  },
  {
    key: 'stem-faceplate',
    fastener: 'Stem faceplate',
    material: 'steel',
    lowNm: 4,
    highNm: 6,
    thread: 'M5',
    step: 'only-if-loosened',
    cautions: ['carbon', 'second-person'],
    basis: 'published',
    cite: { source: 'TorqueMagazine', locator: 'stem, handlebar clamp' },
    elsewhere: [
      {
        lowNm: 5,
        highNm: 8,
        basis: 'published',
        cite: { source: 'StemPost2013', locator: 'figures printed on the parts' },
      },
    ],
  },
] as const satisfies readonly Row<Torque>[];
