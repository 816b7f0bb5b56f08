export interface CardinalTemperatures {
  minimumC: number
  optimumC: number
  maximumC: number
}

/**
 * How fast something grows at a temperature, as a share of its best (0 to 1).
 * Wanted as the shape of what favours Legionella: nothing in the cold, best lukewarm, a sharp end in the heat.
 *
 * g = (T − Tmax)(T − Tmin)² / {(Topt − Tmin)[(Topt − Tmin)(T − Topt) − (Topt − Tmax)(Topt + Tmin − 2T)]}.
 *
 * Special cases: 0 at and outside the least and the greatest temperature; 1 at the best.
 *
 * @param temperatureC any
 * @param at least, best and greatest temperature (°C); twice the best must exceed the sum of the others
 * @throws RangeError when the temperatures are out of order or the best lies in the lower half
 * @source rosso-1993
 * @example
 * cardinalRate(10, { minimumC: 5, optimumC: 20, maximumC: 30 }) // => 0.333333333333333
 */
export function cardinalRate(temperatureC: number, at: CardinalTemperatures): number {
  const { minimumC, optimumC, maximumC } = orderly(at)
  if (temperatureC <= minimumC || temperatureC >= maximumC) return 0
  const reach = optimumC - minimumC
  const bend = reach * (temperatureC - optimumC) - (optimumC - maximumC) * (optimumC + minimumC - 2 * temperatureC)
  return ((temperatureC - maximumC) * (temperatureC - minimumC) ** 2) / (reach * bend)
}

function orderly(at: CardinalTemperatures): CardinalTemperatures {
  const { minimumC, optimumC, maximumC } = at
  if (minimumC < optimumC && optimumC < maximumC && 2 * optimumC > minimumC + maximumC) return at
  throw new RangeError(
    `Cannot shape growth because the best temperature must lie in the upper half of the range: got ${minimumC}, ${optimumC}, ${maximumC}`,
  )
}
