/** Some wells (or tubes) of one volume. */
export interface Wells {
  volumeMl: number
  inoculated: number
  positive: number
}

/**
 * The slope of the log-likelihood in the concentration λ (organisms per mL) is Σ x·v / (e^(vλ) − 1) − Σ (n − x)·v; it falls all the way.
 *
 * @param wells each volume with how many were inoculated and positive
 * @param perMl concentration, above 0
 * @source halvorson-ziegler-1933
 * @example
 * wellsSlope([{ volumeMl: 10, inoculated: 10, positive: 5 }], Math.LN2 / 10) // => 0
 */
export function wellsSlope(wells: readonly Wells[], perMl: number): number {
  return wells.reduce(
    (sum, { volumeMl: v, inoculated, positive }) =>
      sum + (positive === 0 ? 0 : (positive * v) / Math.expm1(v * perMl)) - (inoculated - positive) * v,
    0,
  )
}

/**
 * The information about the concentration, per (organisms per mL)².
 *
 * observed: Σ x·v²·e^(−vλ) / (1 − e^(−vλ))²; expected: Σ n·v² / (e^(vλ) − 1).
 *
 * @param wells each volume with how many were inoculated and positive
 * @param at concentration and which information
 * @source jarvis-2010
 * @example
 * wellsInformation([{ volumeMl: 1, inoculated: 2, positive: 1 }], { perMl: Math.LN2, kind: 'expected' }) // => 2
 */
export function wellsInformation(
  wells: readonly Wells[],
  { perMl, kind }: { perMl: number; kind: 'observed' | 'expected' },
): number {
  return wells.reduce((sum, { volumeMl: v, inoculated, positive }) => {
    const seen = kind === 'expected' ? inoculated : positive / -Math.expm1(-v * perMl)
    return seen === 0 ? sum : sum + (seen * v * v) / Math.expm1(v * perMl)
  }, 0)
}

/**
 * The log-likelihood of a concentration: Σ x·ln(1 − e^(−vλ)) − (n − x)·v·λ.
 *
 * @param wells each volume with how many were inoculated and positive
 * @param perMl concentration, above 0
 * @source halvorson-ziegler-1933
 * @example
 * wellsLogLikelihood([{ volumeMl: 1, inoculated: 1, positive: 0 }], 2) // => -2
 */
export function wellsLogLikelihood(wells: readonly Wells[], perMl: number): number {
  return wells.reduce(
    (sum, { volumeMl: v, inoculated, positive }) =>
      sum +
      (positive === 0 ? 0 : positive * logOneMinusExp(v * perMl)) -
      (inoculated === positive ? 0 : (inoculated - positive) * v * perMl),
    0,
  )
}

/** ln(1 − e^(−x)), good at both ends. */
function logOneMinusExp(x: number): number {
  return x < Math.LN2 ? Math.log(-Math.expm1(-x)) : Math.log1p(-Math.exp(-x))
}
