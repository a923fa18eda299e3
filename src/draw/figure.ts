/** What a picture shows: its numbers and nothing else. `draw` turns one into SVG; a card carries it as it is. */
export type Figure = GearsFigure | ChainlineFigure | BoltStackFigure | ChainFigure | MeasureFigure;

/** Which end of the new range a lost gear lies beyond; null for a gear that stays within it. */
export type LostEnd = 'low' | 'high' | null;

/** Gears of today against those of one ring, on one axis. */
export type GearsFigure = {
  readonly kind: 'gears';
  readonly cadenceRpm: number;
  /** Speed at a ratio of one; null without a wheel, and the axis then shows ratios. */
  readonly kmhPerRatio: number | null;
  readonly cassetteNow: string;
  readonly cassetteThen: string;
  /** False where only the ends of a cassette are known, and so only the end gears. */
  readonly everyGear: boolean;
  /** The rings of today, largest first. */
  readonly now: readonly {
    readonly ringTeeth: number;
    readonly gears: readonly { readonly ratio: number; readonly lost: LostEnd }[];
  }[];
  readonly options: readonly {
    readonly teeth: number;
    readonly mark: string;
    readonly lowestChangePct: number;
    readonly highestChangePct: number;
    readonly ratios: readonly number[];
  }[];
  /** The ring that lost gears are told against; one of `options`. */
  readonly ringTeeth: number;
  /** The steepest slope in the lowest gear; null where no power is told or no slope answers to it. */
  readonly climb: { readonly powerW: number; readonly nowPct: number; readonly thenPct: number } | null;
};

/** The ring against the cassette, seen from above. */
export type ChainlineFigure = {
  readonly kind: 'chainline';
  readonly hubMm: number;
  /** Middle of the cassette from the frame's mid-plane. */
  readonly rearMm: number;
  /** Where the ring runs; null while nobody has measured. */
  readonly frontMm: number | null;
  readonly ringTeeth: number | null;
  /** Where single rings for this hub are made to run. */
  readonly lowMm: number;
  readonly highMm: number;
  readonly stayMm: number | null;
  /** Smallest and outermost first. */
  readonly sprockets: readonly {
    readonly teeth: number;
    readonly lineMm: number;
    readonly angleDeg: number | null;
  }[];
  readonly verdict: 'good' | 'acceptable' | 'poor' | null;
};

/** Ring, crank arm, sleeve and bolt in section. */
export type BoltStackFigure = {
  readonly kind: 'bolt-stack';
  readonly ringTabMm: number;
  readonly spiderTabMm: number;
  readonly gripMm: number;
  readonly sleeveMm: number | null;
  readonly clearanceMm: number | null;
  readonly leastClearMm: number;
  readonly leastThreadMm: number;
  readonly verdict: 'holds' | 'bottoms' | 'short' | 'unknown';
  /** The thinnest washer that mends a stack that bottoms; null elsewhere. */
  readonly washerMm: number | null;
  /** Thread that must hold, by the bolt's material. */
  readonly steelMm: number;
  readonly aluminiumMm: number;
};

/** The chain round its largest ring and sprocket, what to count, and where it is cut. */
export type ChainFigure = {
  readonly kind: 'chain';
  readonly ringTeeth: number;
  readonly sprocketTeeth: number;
  readonly centreMm: number;
  readonly wrapPitches: number;
  readonly allowancePitches: number;
  readonly targetPitches: number;
  readonly presentPitches: number | null;
  readonly removePitches: number | null;
  readonly addPitches: number | null;
  readonly join: 'link' | 'pin' | null;
};

/** How to take one measure. Lengths are examples from print or geometry, not the rider's. */
export type MeasureFigure =
  | {
      readonly kind: 'measure';
      readonly what: 'gap';
      readonly opposite: { readonly bolts: 4; readonly bcdMm: number; readonly gapMm: number };
      readonly neighbours: { readonly bolts: 5; readonly bcdMm: number; readonly gapMm: number };
    }
  | {
      readonly kind: 'measure';
      readonly what: 'chainline';
      readonly tubeMm: number;
      readonly gapMm: number;
      readonly lineMm: number;
    }
  | { readonly kind: 'measure'; readonly what: 'stays' }
  | { readonly kind: 'measure'; readonly what: 'longest' }
  | { readonly kind: 'measure'; readonly what: 'count' }
  | {
      readonly kind: 'measure';
      readonly what: 'wear';
      readonly pitches: number;
      readonly newMm: number;
      readonly marks: readonly { readonly wearPct: number; readonly lengthMm: number }[];
    }
  | { readonly kind: 'measure'; readonly what: 'stack' };
