/**
 * The least concentration a test of a volume can show: one colony, most probable number or genome unit in what was examined.
 * In the inverse of the unit the volume is in. Wanted because "not detected" speaks only for that volume.
 *
 * L = 1 / V.
 *
 * @param examined volume of the sample that was examined, above 0
 * @throws RangeError when the volume is not above 0
 * @source iso-8199-2018
 * @example
 * detectionLimitOf(0.01) // => 100
 */
export function detectionLimitOf(examined: number): number {
  if (!(examined > 0))
    throw new RangeError(`Cannot tell a detection limit because the volume must be above 0: got ${examined}`)
  return 1 / examined
}
