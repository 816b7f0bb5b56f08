import table from '@rillmark/reference/water/friction.json' with { type: 'json' }

const FIGURES = table.figures
/** Reynolds numbers at which smooth flow ends and rough flow is complete. */
export const LAMINAR_BELOW = FIGURES.laminarBelow.value
const TURBULENT_ABOVE = FIGURES.turbulentAbove.value
export const LAMINAR_FACTOR = FIGURES.laminarFactor.value
export const GRAVITY_M_PER_S2 = FIGURES.gravity.value
const REYNOLDS_FACTOR = FIGURES.reynoldsFactor.value
const REYNOLDS_POWER = FIGURES.reynoldsPower.value
const ROUGHNESS_DIVISOR = FIGURES.roughnessDivisor.value
const TURBULENT_FACTOR = FIGURES.turbulentFactor.value

export interface PipeMotion {
  reynolds: number
  relativeRoughness: number
}

/** Coefficients of a cubic in Re/2000, rising powers. */
type Cubic = readonly [number, number, number, number]

/**
 * Friction factor of a round pipe (Darcy; 1).
 * Wanted because it decides how water shares itself out over the pipes of a loop.
 *
 * f = 64/Re below a Reynolds number of 2000; f = 0.25 / log10²(e/3.7 + 5.74/Re^0.9) above 4000, e the roughness over the bore;
 * between them the cubic that joins both in value and slope.
 *
 * Special cases: without flow the factor has no limit; the head lost has, see `FrictionTable`.
 *
 * @param input Reynolds number (above 0), roughness over bore (0 to below 0.5)
 * @source epanet-2-2-friction
 * @source swamee-jain
 * @example
 * frictionFactor({ reynolds: 128, relativeRoughness: 0 }) // => 0.5
 */
export function frictionFactor({ reynolds, relativeRoughness }: PipeMotion): number {
  if (reynolds <= LAMINAR_BELOW) return LAMINAR_FACTOR / reynolds
  if (reynolds >= TURBULENT_ABOVE) return turbulent({ reynolds, relativeRoughness }).factor
  const [c0, c1, c2, c3] = transitionCubic(relativeRoughness)
  const ratio = reynolds / LAMINAR_BELOW
  return c0 + ratio * (c1 + ratio * (c2 + ratio * c3))
}

/**
 * Change of the friction factor with the Reynolds number (1), the derivative of `frictionFactor`.
 *
 * @param input Reynolds number (above 0), roughness over bore (0 to below 0.5)
 * @source epanet-2-2-friction
 * @source swamee-jain
 * @example
 * frictionSlope({ reynolds: 1000, relativeRoughness: 0 }) // => -0.000064
 */
export function frictionSlope({ reynolds, relativeRoughness }: PipeMotion): number {
  if (reynolds <= LAMINAR_BELOW) return -LAMINAR_FACTOR / (reynolds * reynolds)
  if (reynolds >= TURBULENT_ABOVE) return turbulent({ reynolds, relativeRoughness }).slope
  const [, c1, c2, c3] = transitionCubic(relativeRoughness)
  const ratio = reynolds / LAMINAR_BELOW
  return (c1 + ratio * (2 * c2 + ratio * 3 * c3)) / LAMINAR_BELOW
}

/** The cubic in r = Re/2000 that joins 64/Re at 2000 and the turbulent formula at 4000, in value and in slope. */
function transitionCubic(relativeRoughness: number): Cubic {
  const width = TURBULENT_ABOVE / LAMINAR_BELOW - 1
  const start = LAMINAR_FACTOR / LAMINAR_BELOW
  const { factor: end, slope } = turbulent({ reynolds: TURBULENT_ABOVE, relativeRoughness })
  const [startSlope, endSlope] = [-start, slope * LAMINAR_BELOW]
  const rise = (end - start) / width
  const b = (3 * rise - 2 * startSlope - endSlope) / width
  const a = (startSlope + endSlope - 2 * rise) / (width * width)
  // start + startSlope·(r−1) + b·(r−1)² + a·(r−1)³, written out in powers of r
  return [start - startSlope + b - a, startSlope - 2 * b + 3 * a, b - 3 * a, a]
}

function turbulent({ reynolds, relativeRoughness }: PipeMotion) {
  const smooth = REYNOLDS_FACTOR * reynolds ** -REYNOLDS_POWER
  const inside = relativeRoughness / ROUGHNESS_DIVISOR + smooth
  const log = Math.log10(inside)
  const factor = TURBULENT_FACTOR / (log * log)
  const slope = (2 * REYNOLDS_POWER * factor * smooth) / (reynolds * inside * Math.LN10 * log)
  return { factor, slope }
}
