import { devianceTerm, stirlingError } from './stirling.ts'

export interface BinomialTrial {
  trials: number
  /** Chance of a success, above 0. */
  success: number
  /** Natural logarithm of the chance of a failure, below 0: keeps its digits where failures are rare. */
  logFailure: number
}

/**
 * The natural logarithm of the chance of exactly some successes, good for millions of trials.
 *
 * @param successes whole, 0 to the number of trials
 * @param trial trials, chance of a success, and logarithm of the chance of a failure
 * @source loader-2000
 * @example
 * binomialLogChance(0, { trials: 2, success: 0.5, logFailure: Math.log(0.5) }) // => -1.3862943611198906
 */
export function binomialLogChance(successes: number, { trials, success, logFailure }: BinomialTrial): number {
  const failures = trials - successes
  if (successes === 0) return trials * logFailure
  if (failures === 0) return trials * Math.log(success)
  const correction = stirlingError(trials) - stirlingError(successes) - stirlingError(failures)
  const deviance = devianceTerm(successes, trials * success) + devianceTerm(failures, trials * Math.exp(logFailure))
  return correction - deviance + Math.log(trials / (2 * Math.PI * successes * failures)) / 2
}
