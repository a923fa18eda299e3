import { FRONT_LINES, LINE_LIMITS, REAR_LINES } from '../tables/chainlines.ts';
import { ZERO_OFFSET_LINE } from '../tables/direct-mount.ts';
import { SPROCKET_SPACING } from '../tables/sprocket-spacing.ts';

/** Centre-to-centre spacing of a cassette's sprockets, and the width of the whole stack. */
export type Spacing = { readonly spacingMm: number; readonly stackMm: number; readonly from: 'published' | 'memory' };

/**
 * Spacing of the sprockets of a cassette, and the width over all of them.
 *
 * stack = (n − 1) · spacing + sprocket thickness
 *
 * Valid for 5 to 13 sprockets, outside of which it is null; from 11 on the middle of a remembered range. Agrees with the
 * printed stack widths of 5 to 10 sprockets to 0.1 mm.
 *
 * @param speeds number of sprockets [1], 5 to 13
 * @returns [—] `spacingMm` and `stackMm` [mm], and what they rest on; or null
 * @example sprocketSpacing(10).stackMm // 37.15
 * @see StackTable, 7 to 10 sprockets
 */
export function sprocketSpacing(speeds: number): Spacing | null {
  for (const row of SPROCKET_SPACING) {
    if (row.speeds !== speeds) continue;
    const spacingMm = (row.spacingLowMm + row.spacingHighMm) / 2;
    return { spacingMm, stackMm: (speeds - 1) * spacingMm + row.thicknessMm, from: row.basis };
  }
  return null;
}

/**
 * Middle of the cassette from the frame's mid-plane, from measures taken at the hub.
 *
 * rear = OLD/2 − (locknut face to smallest sprocket's face) − stack/2
 *
 * Valid for any hub that is centred in the frame. Agrees with the printed 43.4 for ten sprockets on 130 mm.
 *
 * @param hubMm hub width over locknuts [mm], 110 to 200
 * @param lockGapMm locknut face to the outer face of the smallest sprocket [mm], over 0
 * @param stackMm width over all sprockets [mm], over 0
 * @returns rear chainline [mm]
 * @example rearLineMm(130, 3, 37.15) // 43.43
 * @see TiBlog, ten sprockets on 130
 */
export function rearLineMm(hubMm: number, lockGapMm: number, stackMm: number): number {
  return hubMm / 2 - lockGapMm - stackMm / 2;
}

/**
 * Distance from a dropout's inner face to the line of the ring, to sight it with a straightedge.
 *
 * distance = OLD/2 − front chainline
 *
 * Valid for any hub that is centred in the frame. Agrees with the printed 16.5 for a ring at 51 on 135 mm.
 *
 * @param hubMm hub width over locknuts [mm], 110 to 200
 * @param frontMm front chainline [mm], 35 to 70
 * @returns distance inside the dropout face [mm]
 * @example dropoutToRingMm(135, 51) // 16.5
 * @see FixedForum, 135 mm with the ring at 51
 */
export function dropoutToRingMm(hubMm: number, frontMm: number): number {
  return hubMm / 2 - frontMm;
}

/**
 * Front chainline as it is measured on the bike.
 *
 * front = seat tube diameter / 2 + gap from tube to tooth centre
 *
 * Valid for a round seat tube in the frame's mid-plane. Agrees with the printed 42.5 for a 30 mm tube and a 27.5 mm gap.
 *
 * @param tubeMm seat tube diameter [mm], over 0
 * @param gapMm gap from the tube's side to the middle of a tooth [mm], over 0
 * @returns front chainline [mm]
 * @example frontLineMm(30, 27.5) // 42.5
 * @see FixedForum, seat tube 30 and gap 27.5
 */
export function frontLineMm(tubeMm: number, gapMm: number): number {
  return tubeMm / 2 + gapMm;
}

/**
 * Front chainline of a direct-mount ring in one widespread family of cranks.
 *
 * front = 55 − offset
 *
 * Valid in that family only; other families count their offsets from elsewhere. Agrees with 6 mm for 49 and 3 mm for 52.
 *
 * @param offsetMm ring offset [mm], −6 to 10
 * @returns front chainline in that family [mm]
 * @example directMountLineMm(3) // 52
 * @see OffsetTable, 6, 3 and 0 mm
 */
export function directMountLineMm(offsetMm: number): number {
  return ZERO_OFFSET_LINE.lineMm - offsetMm;
}

/**
 * Angle at which the chain runs from the ring to a sprocket beside it.
 *
 * angle = atan(offset / chainstay)
 *
 * Valid for any offset; the sign is dropped, because the chain does not mind which side. Agrees with plain trigonometry;
 * measured losses from it are negligible [Spicer2001], the reasons to keep it small are noise, wear and dropped chains.
 *
 * @param offsetMm ring's line less the sprocket's [mm], −60 to 60
 * @param stayMm chainstay length [mm], 300 to 800
 * @returns angle [°]
 * @example chainAngleDeg(21.75, 410) // 3.04
 * @see geometry
 */
export function chainAngleDeg(offsetMm: number, stayMm: number): number {
  return (Math.atan(Math.abs(offsetMm) / stayMm) * 180) / Math.PI;
}

/**
 * Lines for a hub: the middle of its cassette, and where a single ring is meant to run.
 *
 * rear(hub), front low to high(hub)
 *
 * Valid for hubs of 130, 135, 141, 142, 148, 150 and 157 mm; any other is null, because its cassette place is not
 * printed. Agrees with the printed 43.0 for 142 and 43.4 for 130, which it reads.
 *
 * @param hubMm hub width over locknuts [mm]
 * @returns [—] `rearMm`, `lowMm`, `highMm` [mm], or null
 * @example hubLines(148) // {"rearMm":46,"lowMm":51,"highMm":55}
 * @see BikeGremlinForum, 142 mm
 */
export function hubLines(
  hubMm: number,
): { readonly rearMm: number; readonly lowMm: number; readonly highMm: number } | null {
  const rear = REAR_LINES.find((row) => row.hubMm === hubMm);
  const front = FRONT_LINES.find((row) => row.hubMm === hubMm);
  return rear && front ? { rearMm: rear.rearMm, lowMm: front.lowMm, highMm: front.highMm } : null;
}

/**
 * Lines of a cassette's sprockets from the frame's mid-plane, the smallest and outermost first.
 *
 * line(i) = rear + ((n − 1)/2 − i) · spacing
 *
 * Valid for evenly spaced sprockets. Agrees with the printed 61.2 to 25.65 for ten sprockets on 130 mm.
 *
 * @param rearMm middle of the cassette [mm]
 * @param speeds number of sprockets [1], 2 or more
 * @param spacingMm sprocket spacing [mm]
 * @returns lines [mm], one a sprocket
 * @example sprocketLinesMm(43.425, 10, 3.95)[9] // 25.65
 * @see TiBlog, ten sprockets on 130
 */
export function sprocketLinesMm(rearMm: number, speeds: number, spacingMm: number): readonly number[] {
  return Array.from({ length: speeds }, (_, index) => rearMm + ((speeds - 1) / 2 - index) * spacingMm);
}

export type LineVerdict = 'good' | 'acceptable' | 'poor';

/**
 * Judges a chainline by the worst angle where it is known, and by the offset from the cassette's middle.
 *
 * good: worst ≤ 2.5° and |offset| ≤ 5 mm, or worst ≤ 3.5° and |offset| ≤ 2 mm; acceptable: worst ≤ 3.5°; else poor
 *
 * Valid for single rings. Where no angle is known: good within 2 mm, acceptable within 5 mm or on a line the hub's rings
 * are made for, else poor. The angle decides where there is one, because the usual 49 mm on a 142 mm hub is 6 mm out
 * yet stays under 3.5°. Agrees with the printed ±2 mm and 5 mm where only the offset is known.
 *
 * @param input `offsetMm` ring less middle of cassette [mm]; `worstDeg` largest angle [°] or null; `onMadeLine` [—]
 * @returns [—] good, acceptable or poor
 * @example lineVerdict({ offsetMm: 6, worstDeg: 3.1, onMadeLine: true }) // "acceptable"
 * @example lineVerdict({ offsetMm: 6, worstDeg: null, onMadeLine: false }) // "poor"
 * @see RearLine2012, ring in line within 2 mm
 */
export function lineVerdict(input: {
  readonly offsetMm: number;
  readonly worstDeg: number | null;
  readonly onMadeLine: boolean;
}): LineVerdict {
  const out = Math.abs(input.offsetMm);
  const straight = out <= LINE_LIMITS.straight.value;
  const inside = out <= LINE_LIMITS.outside.value;
  if (input.worstDeg === null) return straight ? 'good' : inside || input.onMadeLine ? 'acceptable' : 'poor';
  if (input.worstDeg > LINE_LIMITS.comfort.value) return 'poor';
  return straight || (inside && input.worstDeg <= LINE_LIMITS.preferred.value) ? 'good' : 'acceptable';
}
