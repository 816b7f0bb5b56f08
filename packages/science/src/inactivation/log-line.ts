/** A figure known at a temperature. */
export interface LinePoint {
  temperatureC: number
  value: number
}

/**
 * The value at a temperature on straight lines of its logarithm between known points; beyond the ends with a given slope.
 *
 * log10 value is linear between neighbours; outside, it falls by 1 for each `zC` degrees, or stays where `zC` is left out.
 *
 * @param points in order of temperature, at least one, values above 0
 * @param at temperature (°C) and, for outside the points, degrees for a tenfold fall
 * @throws RangeError when there are no points
 * @source none: it computes nothing of the trade
 * @example
 * onLogLine([{ temperatureC: 50, value: 100 }, { temperatureC: 60, value: 1 }], { temperatureC: 55 }) // => 10
 */
export function onLogLine(
  points: readonly LinePoint[],
  { temperatureC, zC }: { temperatureC: number; zC?: number },
): number {
  const [first, last] = [points[0], points.at(-1)]
  if (first === undefined || last === undefined)
    throw new RangeError('Cannot follow a line because it has no points: got none')
  const end = temperatureC < first.temperatureC ? first : last
  const above = points.find((each) => each.temperatureC >= temperatureC)
  const below = points.findLast((each) => each.temperatureC <= temperatureC)
  if (above === undefined || below === undefined) {
    return zC === undefined ? end.value : end.value * 10 ** ((end.temperatureC - temperatureC) / zC)
  }
  if (above === below) return above.value
  const part = (temperatureC - below.temperatureC) / (above.temperatureC - below.temperatureC)
  return below.value * (above.value / below.value) ** part
}
