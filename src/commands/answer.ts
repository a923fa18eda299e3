import type { GearRange } from '../solve/gears.ts';
import type { RingOption } from '../solve/ring-options.ts';
import type { WiderCassette } from '../solve/wider-cassette.ts';
import type { BasisName } from '../tables/row.ts';

/** The machine-readable answer: one part a question. A length or count nobody knows is null, never zero. */
export type Answer = {
  readonly speaksOf?: SpeaksOf;
  readonly rings?: readonly RingOption[];
  readonly now?: GearRange;
  readonly sprockets?: { readonly now: SprocketsPart | null; readonly after: SprocketsPart | null };
  readonly chain?: ChainPart;
  readonly mount?: MountPart;
  readonly chainline?: ChainlinePart;
  readonly derailleur?: DerailleurPart;
  readonly retention?: RetentionPart;
  readonly torque?: readonly TorqueRow[];
  readonly wrench?: WrenchPart;
  readonly weight?: WeightPart;
  readonly wear?: WearPart;
  readonly widerCassettes?: readonly WiderCassette[];
  readonly climb?: ClimbPart;
  readonly trial?: TrialPart;
  readonly objections?: readonly Objection[];
  /** Only where a motor is told. */
  readonly assist?: AssistPart;
  /** Only on a tandem. */
  readonly tandem?: TandemPart;
};

/** Which ring the parts that need one ring speak of, and why that one. */
export type SpeaksOf = {
  readonly teeth: number;
  readonly because: 'wanted' | 'recommended' | 'wanted-cannot-fit' | 'provisional';
};

/** Every sprocket, smallest first; null in the answer where only the ends are known. */
export type SprocketsPart = {
  readonly teeth: readonly number[];
  readonly from: 'told' | 'published' | 'memory' | 'plausible';
  readonly stepsPct: readonly number[];
};

export type ChainPart = {
  readonly ringTeeth: number;
  readonly sprocketTeeth: number;
  readonly gate: 'clear' | 'measure-first';
  /** Why the gate is shut, in words; null when clear. */
  readonly gateReason: string | null;
  /** Axle distance the chain is sized on: the longest with rear suspension, else the chainstay; null when gated. */
  readonly centreMm?: number | null;
  readonly wrapPitches: number | null;
  readonly allowancePitches: number;
  readonly targetPitches: number | null;
  readonly targetPairs: number | null;
  readonly targetMm: number | null;
  readonly presentPitches: number | null;
  /** Of these two only the one that applies is a number; both are 0 where the chain is right, null where nobody knows. */
  readonly removePitches: number | null;
  readonly addPitches: number | null;
  /** The cycling organisation's rule: the next even count above what just fits. */
  readonly alternativeRulePitches: number | null;
  /** Target for each allowance that a printed rule asks for. */
  readonly byAllowance: readonly { readonly allowancePitches: number; readonly targetPitches: number }[];
  readonly growthMm: number | null;
  readonly growthPitches: number | null;
  /** What a chain sized by the same rule for the old largest ring and sprocket has; null when unknown or gated. */
  readonly oldTargetPitches: number | null;
  /** Two pitches more from this chainstay on; null when unknown or gated. */
  readonly boundaryStayMm: number | null;
};

export type MountPart = {
  readonly mount: 'bolted' | 'direct' | 'riveted' | null;
  /** Whether a motor at the cranks has the say on ring and bolts: it does, it may, or null. */
  readonly driveUnit: 'certain' | 'possible' | null;
  readonly bcdMm: number | null;
  /** The circle of the smallest ring on the same crank; its holes stay empty. */
  readonly innerBcdMm: number | null;
  readonly bolts: number | null;
  /** Where the circle comes from: told, measured from a gap, or null when unknown. */
  readonly bcdFrom: 'told' | 'gap' | null;
  /** Circles that a measured gap, or nothing at all, leaves possible; empty when the circle is known. */
  readonly candidates: readonly BoltCircleCandidate[];
  readonly unevenPattern: boolean;
  readonly smallestTeeth: number | null;
  readonly smallestEvenTeeth: number | null;
  readonly smallestSpecialEvenTeeth: number | null;
  readonly smallestFrom: 'table' | 'geometry' | null;
  readonly marginMm: number | null;
  readonly boltAdvice: 'reuse' | 'shorter-or-spacer' | 'ask';
  /** Thickness of the washer that stands in for the tab that left; null when not needed or unknown. */
  readonly spacerMm: number | null;
  readonly stack: {
    readonly gripMm: number;
    readonly sleeveMm: number | null;
    readonly clearanceMm: number | null;
    /** Thread that must hold, which no sleeve may be shorter than. */
    readonly leastThreadMm: number;
    readonly verdict: 'holds' | 'bottoms' | 'short' | 'unknown';
  } | null;
};

export type BoltCircleCandidate = {
  readonly bcdMm: number;
  readonly bolts: number;
  /** Null on an uneven pattern, which has two spacings. */
  readonly spacingMm: number | null;
  readonly smallestTeeth: number;
  readonly smallestEvenTeeth: number;
  /** The least-cost even ring on this circle, filled by the plan; null for `mount` alone. */
  readonly recommendedTeeth: number | null;
};

export type ChainlinePart = {
  readonly frontMm: number | null;
  readonly rearMm: number | null;
  readonly offsetMm: number | null;
  readonly sprockets: readonly {
    readonly teeth: number;
    readonly offsetMm: number;
    readonly angleDeg: number | null;
  }[];
  readonly worstDeg: number | null;
  readonly verdict: 'good' | 'acceptable' | 'poor' | null;
  /** What the front line should be for this hub, as a range; null when the hub is unknown. */
  readonly targetLowMm: number | null;
  readonly targetHighMm: number | null;
};

export type DerailleurPart = {
  readonly capacityNeeded: number;
  readonly capacityNeededNow: number | null;
  readonly capacityTeeth: number | null;
  readonly largestSprocketTeeth: number;
  readonly maxSprocketTeeth: number | null;
  /** Null where the rider has not told the derailleur's figure. */
  readonly capacityFits: boolean | null;
  readonly largestFits: boolean | null;
};

export type RetentionPart = {
  readonly ground: 'smooth' | 'mixed' | 'rough' | null;
  /** How many of narrow-wide ring, clutch and guide each kind of ground asks for. */
  readonly needed: { readonly smooth: number; readonly mixed: number; readonly rough: number };
  readonly fitted: readonly ('narrow-wide ring' | 'clutch' | 'guide')[];
  readonly unknown: readonly ('clutch' | 'guide')[];
  readonly missing: number | null;
  readonly enough: boolean | null;
};

export type TorqueRow = {
  readonly fastener: string;
  readonly material: string;
  readonly lowNm: number | null;
  readonly highNm: number | null;
  readonly lowInLbf: number | null;
  readonly highInLbf: number | null;
  readonly basis: BasisName;
  readonly source: string;
  readonly cautions: readonly string[];
  /** Other published ranges that disagree, as printed. */
  readonly elsewhere: string | null;
  /** When this row counts, where that hangs on something not known yet; absent where the job always touches it. */
  readonly condition?: string;
  /**
   * The pull in the bolt, from the low torque dry to the high torque lubricated; null where ISO 898-1 does not cover it.
   * `proofSharePct` is the high end in class 8.8, the weakest of the three; `shares` has every class.
   */
  readonly preloadN: {
    readonly lowN: number;
    readonly highN: number;
    readonly proofSharePct: number | null;
    readonly thread?: string;
    readonly shares?: readonly { readonly propertyClass: string; readonly lowPct: number; readonly highPct: number }[];
  } | null;
};

export type WrenchPart = {
  readonly wrenchMm: number;
  readonly extensionMm: number;
  readonly angleDeg: number;
  /** Multiply the wanted torque by this to get the setting. */
  readonly factor: number;
  /** What to set for each row that has a range. */
  readonly settings?: readonly {
    readonly fastener: string;
    readonly material: string;
    readonly lowNm: number;
    readonly highNm: number;
    readonly lowInLbf: number;
    readonly highInLbf: number;
  }[];
};

export type WeightItem = {
  readonly part: string;
  readonly lowG: number;
  readonly typicalG: number;
  readonly highG: number;
  readonly basis: BasisName;
  readonly source: string;
};

export type WeightPart = {
  readonly removed: readonly WeightItem[];
  readonly added: readonly WeightItem[];
  readonly savedLowG: number;
  readonly savedTypicalG: number;
  readonly savedHighG: number;
};

export type WearPart = {
  readonly wearPct: number | null;
  readonly speeds: number | null;
  readonly replaceAtPct: number | null;
  readonly verdict: 'ride-on' | 'replace-chain' | 'replace-chain-check-cassette' | null;
};

export type ClimbPart = {
  readonly ringTeeth: number;
  readonly ratio: number;
  readonly speedKmh: number;
  readonly gradePct: number;
  readonly gradeNowPct: number;
  /** The motor's power is never in it. */
  readonly assistCounted: false;
  /** Two on a tandem, whose weight and power count together. */
  readonly riders: 1 | 2;
};

export type TrialPart = {
  readonly avoid: readonly {
    readonly ringTeeth: number;
    readonly sprocketTeeth: number;
    readonly ratio: number;
    readonly end: 'low' | 'high';
  }[];
  /** The same by old ring: lost are sprockets of `fromTeeth` or more (too low) and of `toTeeth` or fewer (too high). */
  readonly spans?: readonly {
    readonly ringTeeth: number;
    readonly fromTeeth: number | null;
    readonly toTeeth: number | null;
  }[];
};

/** A motor that helps; `where` is null while nobody told where it sits. */
export type AssistPart = {
  readonly where: 'hub' | 'mid-drive' | null;
  readonly countedInClimb: false;
  readonly cautions: readonly string[];
};

export type TandemPart = {
  readonly timingChain: 'not-covered';
  readonly ridersCounted: 'together';
  readonly cautions: readonly string[];
};

/** A reason not to convert this bike, or not yet. */
export type Objection = { readonly reason: string; readonly basis: BasisName };
