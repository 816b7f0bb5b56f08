import { choleskyOf, solveWith } from './cholesky.ts'
import { dot, learntCurvature, type SlopedPoint } from './curvature.ts'

export interface LikelihoodAt extends SlopedPoint {
  logLikelihood: number
}

export interface LimitSought {
  /** The log-likelihood at coefficients, −∞ where there is none, and its slope. */
  at(coefficients: Float64Array): LikelihoodAt
  /** The highest point, and minus the curvature there. */
  top: LikelihoodAt & { information: Float64Array }
  /** The coefficient. */
  j: number
  side: 1 | -1
  /** How far the log-likelihood falls at the limit. */
  wanted: number
}

const ENOUGH_STEPS = 40
const ENOUGH_HALVINGS = 12
/** In standard errors; the last step is taken as well, so that what is left is far less. */
const AGREEMENT = 1e-8
/** A step that falls further than this many times what is wanted is halved. */
const TOO_FAR = 3

/**
 * The limit of a coefficient by its profile: of all points where the function has fallen by so much, the one furthest out. One search over
 * all coefficients: of a paraboloid with the slope and curvature at hand it is Δ = B⁻¹·(slope + λ·e), λ² = 2·(fall still allowed) / (B⁻¹)ⱼⱼ.
 *
 * Special cases: nothing where the search doesn't settle. Where the function has several tops it may settle beside one: look whether the
 * other coefficients can do better.
 *
 * @param sought which limit
 * @returns all coefficients where one is at its limit
 * @source venzon-moolgavkar-1988
 */
export function profileLimit({ at, top, j, side, wanted }: LimitSought): Float64Array | undefined {
  const lowest = top.logLikelihood - wanted
  let point: LikelihoodAt = top
  let curvature = top.information
  for (let step = 0; step < ENOUGH_STEPS; step++) {
    const direction = outwards({ point, curvature, lowest }, { j, side })
    if (direction === undefined) return undefined
    if (lengthOf(direction, curvature) < AGREEMENT)
      return point.coefficients.map((value, k) => value + (direction[k] as number))
    const next = within(at, { point, direction, lowest: top.logLikelihood - TOO_FAR * wanted })
    if (next === undefined) return undefined
    curvature = learntCurvature(curvature, { from: point, to: next })
    point = next
  }
  return undefined
}

interface Paraboloid {
  point: LikelihoodAt
  curvature: Float64Array
  lowest: number
}

function outwards(
  { point, curvature, lowest }: Paraboloid,
  { j, side }: { j: number; side: 1 | -1 },
): Float64Array | undefined {
  const columns = point.score.length
  const root = choleskyOf(curvature, columns)
  if (root === undefined) return undefined
  const upwards = solveWith(root, point.score)
  const unit = new Float64Array(columns)
  unit[j] = 1
  const along = solveWith(root, unit)
  const room = point.logLikelihood + dot(point.score, upwards) / 2 - lowest
  const pull = side * Math.sqrt((2 * Math.max(0, room)) / (along[j] as number))
  return upwards.map((part, k) => part + pull * (along[k] as number))
}

/** In standard errors, by the curvature. */
function lengthOf(direction: Float64Array, curvature: Float64Array): number {
  const columns = direction.length
  return direction.reduce(
    (most, part, k) => Math.max(most, Math.abs(part) * Math.sqrt(curvature[k * columns + k] as number)),
    0,
  )
}

/** The whole step, or the longest half of a half of it that doesn't fall too far. */
function within(
  at: LimitSought['at'],
  { point, direction, lowest }: { point: LikelihoodAt; direction: Float64Array; lowest: number },
): LikelihoodAt | undefined {
  for (let size = 1, halving = 0; halving < ENOUGH_HALVINGS; halving++, size /= 2) {
    const next = at(point.coefficients.map((value, k) => value + size * (direction[k] as number)))
    if (next.logLikelihood >= lowest) return next
  }
  return undefined
}
