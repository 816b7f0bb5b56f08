const ML_PER_L = 1000

/**
 * The volume of solution (mL) that a dose stated per litre of water puts into a bottle.
 * Wanted because procedures state the neutralizer per litre and bottles come in other sizes.
 *
 * v = d · V / 1000, with d mlPerL and V volumeMl.
 *
 * @param dose mL of solution per litre (at least 0), volume of the water (mL, at least 0)
 * @throws RangeError when either is below 0 or not finite
 * @source none: proportion
 * @example
 * doseOfVolumeMl({ mlPerL: 0.5, volumeMl: 250 }) // => 0.125
 */
export function doseOfVolumeMl({ mlPerL, volumeMl }: { mlPerL: number; volumeMl: number }): number {
  if (!(mlPerL >= 0 && volumeMl >= 0 && Number.isFinite(mlPerL * volumeMl)))
    throw new RangeError(`Cannot dose a bottle because dose and volume are at least 0: got ${mlPerL}, ${volumeMl}`)
  return (mlPerL * volumeMl) / ML_PER_L
}
