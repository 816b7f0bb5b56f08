import { logGamma } from '../distributions/gamma.ts'
import { twoSidedNormalQuantile } from '../distributions/normal.ts'
import { risingRoot } from '../distributions/rising-root.ts'

export interface Joined {
  /** Colonies counted, on plates that stand for `amount` of the sample together. */
  colonies: number
  amount: number
  /** Plates with at least so many colonies, each standing for its amount. */
  atLeast: { colonies: number; amount: number }[]
  level: number
}

/**
 * The most likely concentration, in the inverse of the unit of the amounts, from counted plates and from plates of which only the least
 * number of colonies is known, with likelihood-ratio limits. Wanted so that a plate too full to count is not thrown away.
 *
 * ln L = C·ln λ − λV + Σ ln P(N ≥ c), N Poisson with mean λv.
 *
 * Special cases: a plate with at least none says nothing; 0 with a lower limit of 0 where no colony is known.
 *
 * @param joined counts, amounts above 0, level
 * @source haas-heller-1988
 * @example
 * joinedConcentration({ colonies: 0, amount: 1, atLeast: [{ colonies: 1, amount: 1 }], level: 0.95 }).estimate // => 0.6931471805599453
 */
export function joinedConcentration({ colonies, amount, atLeast, level }: Joined): {
  estimate: number
  lower: number
  upper: number
} {
  const least = atLeast
    .filter((plate) => plate.colonies > 0)
    .map((plate) => ({ ...plate, ...logGamma(plate.colonies) }))
  const fall = twoSidedNormalQuantile(level) ** 2 / 2
  const known = least.reduce((sum, plate) => sum + plate.colonies, colonies)
  if (known === 0) return { estimate: 0, lower: 0, upper: fall / amount }
  const logLikelihood = (log: number) =>
    least.reduce(
      (sum, plate) => sum + plate.logLower(Math.exp(log) * plate.amount),
      colonies * log - Math.exp(log) * amount,
    )
  const falling = (log: number) => {
    const perAmount = Math.exp(log)
    return least.reduce(
      (sum, plate) => {
        const mean = perAmount * plate.amount
        return sum - mean * Math.exp(plate.logDensity(mean) - plate.logLower(mean))
      },
      perAmount * amount - colonies,
    )
  }
  const start = Math.log(
    least.reduce((most, each) => Math.max(most, each.colonies / each.amount), Math.max(colonies, 0.5) / amount),
  )
  const log = risingRoot({ rising: falling, start, step: 0.1 })
  const top = logLikelihood(log)
  const error = 1 / Math.sqrt(known)
  const away = (side: 1 | -1) =>
    Math.exp(
      log +
        side *
          risingRoot({
            rising: (t) => (t <= 0 ? t - fall : top - logLikelihood(log + side * t) - fall),
            start: 2 * error,
            step: error,
          }),
    )
  return { estimate: Math.exp(log), lower: away(-1), upper: away(1) }
}
