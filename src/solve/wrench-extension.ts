export type WrenchFactor =
  | { readonly kind: 'found'; readonly factor: number }
  | { readonly kind: 'cannot'; readonly reason: 'no-lever-left' };

const RAD_PER_DEG = Math.PI / 180;

/**
 * What to multiply the wanted torque by to get the setting of a wrench with a crow-foot extension.
 *
 * T_set = T·L/(L + E·cosφ)
 *
 * Valid for an extension in the plane of the wrench that leaves a lever, L + E·cosφ over 0; folded back further there is
 * no setting and the answer is `cannot`. A socket extension along the drive axis changes nothing and has no place here.
 * Agrees with the printed 57.14 for 100 with 12 and 9 in line to its last digit.
 *
 * @param input `wrenchMm` drive to mid-grip [mm], `extensionMm` drive to bolt [mm], `angleDeg` from the line of the wrench [°]
 * @returns `factor` [1]
 * @example wrenchFactor({ wrenchMm: 300, extensionMm: 100, angleDeg: 0 }).factor // 0.75
 * @example wrenchFactor({ wrenchMm: 300, extensionMm: 40, angleDeg: 90 }).factor // 1.000
 * @see ExtensionExample, worked example
 */
export function wrenchFactor(input: {
  readonly wrenchMm: number;
  readonly extensionMm: number;
  readonly angleDeg: number;
}): WrenchFactor {
  const leverMm = input.wrenchMm + input.extensionMm * Math.cos(input.angleDeg * RAD_PER_DEG);
  if (leverMm <= 0) return { kind: 'cannot', reason: 'no-lever-left' };
  return { kind: 'found', factor: input.wrenchMm / leverMm };
}
