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
  let slope = 0
  for (const { volumeMl: v, inoculated, positive } of wells) {
    if (positive > 0) slope += (positive * v) / Math.expm1(v * perMl)
    slope -= (inoculated - positive) * v
  }
  return slope
}

/**
 * The slope of the log-likelihood and the observed information, at once.
 *
 * @param wells each volume with how many were inoculated and positive
 * @param perMl concentration, above 0
 * @source halvorson-ziegler-1933
 * @example
 * wellsScore([{ volumeMl: 1, inoculated: 2, positive: 1 }], Math.LN2).information // => 2
 */
export function wellsScore(wells: readonly Wells[], perMl: number): { slope: number; information: number } {
  let [slope, information] = [0, 0]
  for (const { volumeMl: v, inoculated, positive } of wells) {
    slope -= (inoculated - positive) * v
    if (positive === 0) continue
    const odds = 1 / Math.expm1(v * perMl)
    slope += positive * v * odds
    information += positive * v * v * odds * (1 + odds)
  }
  return { slope, information }
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
  let information = 0
  for (const { volumeMl: v, inoculated, positive } of wells) {
    const seen = kind === 'expected' ? inoculated : positive / -Math.expm1(-v * perMl)
    if (seen > 0) information += (seen * v * v) / Math.expm1(v * perMl)
  }
  return information
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
  let log = 0
  for (const { volumeMl: v, inoculated, positive } of wells) {
    if (positive > 0) log += positive * logOneMinusExp(v * perMl)
    if (inoculated > positive) log -= (inoculated - positive) * v * perMl
  }
  return log
}

/** ln(1 − e^(−x)), good at both ends. */
function logOneMinusExp(x: number): number {
  return x < Math.LN2 ? Math.log(-Math.expm1(-x)) : Math.log1p(-Math.exp(-x))
}
