import { choleskyOf, inverseOf, solveWith } from '../likelihood/cholesky.ts'

/** A misfit near a point as a paraboloid: how it falls, and its curvature. */
export interface NormalEquations {
  /** Minus the slope, per parameter. */
  descent: Float64Array
  /** Parameters × parameters, row by row. */
  curvature: Float64Array
}

/** What the equations are made of; `slopes`: readings × parameters, of the standardised predictions. */
export interface Linearised {
  slopes: Float64Array
  standardised: Float64Array
  weights: Float64Array
  /** Where the search is, per parameter, in standard deviations of the prior. */
  at: Float64Array
  hasPrior: readonly boolean[]
}

/**
 * The normal equations of weighted least squares with normal priors: curvature JᵀWJ + P, descent JᵀWr − P·u.
 *
 * @param linearised slopes J, residuals r, weights W and place u; P is 1 on the diagonal where a parameter has a prior
 * @source tarantola-2005
 */
export function normalEquations({ slopes, standardised, weights, at, hasPrior }: Linearised): NormalEquations {
  const many = at.length
  const descent = new Float64Array(many)
  const curvature = new Float64Array(many * many)
  for (let i = 0; i < standardised.length; i++) {
    const weight = weights[i] as number
    for (let j = 0; j < many; j++) {
      const weighed = weight * (slopes[i * many + j] as number)
      descent[j] = (descent[j] as number) + weighed * (standardised[i] as number)
      for (let k = 0; k <= j; k++)
        curvature[j * many + k] = (curvature[j * many + k] as number) + weighed * (slopes[i * many + k] as number)
    }
  }
  for (let j = 0; j < many; j++) {
    if (hasPrior[j] === true) {
      descent[j] = (descent[j] as number) - (at[j] as number)
      curvature[j * many + j] = (curvature[j * many + j] as number) + 1
    }
    for (let k = 0; k < j; k++) curvature[k * many + j] = curvature[j * many + k] as number
  }
  return { descent, curvature }
}

/**
 * The damped step of Levenberg and Marquardt: (A + λ·diag A)·δ = descent, with some parameters held where they are.
 *
 * Special cases: a parameter that nothing depends on stays.
 *
 * @param equations of the point
 * @param how `damping` λ, and which parameters are held at a bound
 * @returns the step; undefined where the damping is too small for the equations to be solved
 * @source marquardt-1963
 */
export function dampedStep(
  { descent, curvature }: NormalEquations,
  { damping, held }: { damping: number; held: readonly boolean[] },
): Float64Array | undefined {
  const many = descent.length
  const matrix = Float64Array.from(curvature)
  const side = Float64Array.from(descent)
  for (let j = 0; j < many; j++) {
    const own = matrix[j * many + j] as number
    const still = held[j] === true || own === 0
    if (still) {
      for (let k = 0; k < many; k++) matrix[j * many + k] = matrix[k * many + j] = 0
      side[j] = 0
    }
    matrix[j * many + j] = still ? 1 : own * (1 + damping)
  }
  const root = choleskyOf(matrix, many)
  return root === undefined ? undefined : solveWith(root, side)
}

/**
 * The inverse of the curvature: the covariance of the parameters near the lowest point.
 *
 * @param curvature parameters × parameters, row by row
 * @param many number of parameters
 * @returns undefined where the readings and priors leave a parameter open
 * @source tarantola-2005
 * @example
 * covarianceOf(Float64Array.of(4, 0, 0, 25), 2)?.[3] // => 0.04000000000000001
 */
export function covarianceOf(curvature: Float64Array, many: number): Float64Array | undefined {
  const root = choleskyOf(curvature, many)
  if (root === undefined) return undefined
  const inverse = inverseOf(root)
  const covariance = new Float64Array(many * many)
  for (let j = 0; j < many; j++)
    for (let k = 0; k < many; k++) {
      let sum = 0
      for (let i = Math.max(j, k); i < many; i++)
        sum += (inverse[i * many + j] as number) * (inverse[i * many + k] as number)
      covariance[j * many + k] = sum
    }
  return covariance
}
