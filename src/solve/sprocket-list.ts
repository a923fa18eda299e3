import { CASSETTES } from '../tables/cassettes.ts';

export type SprocketList =
  | {
      readonly kind: 'found';
      /** Smallest first. */
      readonly sprockets: readonly number[];
      readonly from: 'told' | 'published' | 'memory' | 'plausible';
    }
  | { readonly kind: 'cannot'; readonly reason: 'speeds-unknown' | 'too-many-sprockets' };

/**
 * Every sprocket of a cassette of which perhaps only the ends are known.
 *
 * told list; else the listed cassette with these ends and this count; else tooth i = smallest · (largest/smallest)^(i/(count − 1)), rounded
 *
 * Valid for 5 to 13 sprockets; outside, when the count is unknown and not exactly one listed cassette has these ends,
 * or when more sprockets are asked for than whole tooth counts lie between the ends, there is no list. Agrees with the
 * listed cassettes exactly; the plausible list rises strictly, keeps both ends and is marked as such.
 *
 * @param input `smallestTeeth` and `largestTeeth` [1], `speeds` [1] or null, `sprockets` [1] as told or null
 * @returns `sprockets` [1] smallest first and where they come from; or why there is no list [—]
 * @example sprocketList({ smallestTeeth: 11, largestTeeth: 36, speeds: 10, sprockets: null }).sprockets // [11, 13, 15, 17, 19, 21, 24, 28, 32, 36]
 * @example sprocketList({ smallestTeeth: 10, largestTeeth: 40, speeds: 5, sprockets: null }).sprockets // [10, 14, 20, 28, 40]
 * @see CassetteSheets, whole lists
 */
export function sprocketList(input: {
  readonly smallestTeeth: number;
  readonly largestTeeth: number;
  readonly speeds: number | null;
  readonly sprockets: readonly number[] | null;
}): SprocketList {
  const { smallestTeeth, largestTeeth, speeds } = input;
  if (input.sprockets !== null) return { kind: 'found', sprockets: input.sprockets, from: 'told' };
  let listed: (typeof CASSETTES)[number] | null = null;
  let matches = 0;
  for (const row of CASSETTES) {
    if (row.sprockets[0] !== smallestTeeth || row.sprockets[row.speeds - 1] !== largestTeeth) continue;
    if (speeds !== null && row.speeds !== speeds) continue;
    listed ??= row;
    matches += 1;
  }
  if (listed !== null && (speeds !== null || matches === 1)) {
    return { kind: 'found', sprockets: listed.sprockets, from: listed.basis };
  }
  if (speeds === null) return { kind: 'cannot', reason: 'speeds-unknown' };
  if (largestTeeth - smallestTeeth < speeds - 1) return { kind: 'cannot', reason: 'too-many-sprockets' };
  return { kind: 'found', sprockets: evenlySpread(smallestTeeth, largestTeeth, speeds), from: 'plausible' };
}

function evenlySpread(smallestTeeth: number, largestTeeth: number, speeds: number): number[] {
  const step = (largestTeeth / smallestTeeth) ** (1 / (speeds - 1));
  const sprockets = [smallestTeeth];
  let before = smallestTeeth;
  for (let index = 1; index < speeds; index += 1) {
    // Room is left above for the sprockets still to come, so that the list rises strictly and ends where it must.
    const most = largestTeeth - (speeds - 1 - index);
    before = Math.min(most, Math.max(before + 1, Math.round(smallestTeeth * step ** index)));
    sprockets.push(before);
  }
  return sprockets;
}
