/**
 * The parts of a factorial and of a deviance that stay exact when counts are large: densities built on them keep
 * 14 digits where differences of log-gammas lose ten.
 */

/** Below this the error of the asymptotic series exceeds double precision, so the argument is shifted up to it. */
const SERIES_FROM = 16
/** From the last term to the first. */
const SERIES = [-691 / 360_360, 1 / 1188, -1 / 1680, 1 / 1260, -1 / 360, 1 / 12]

/**
 * The error of Stirling's formula, ln Γ(n+1) − [½ ln(2πn) + n ln n − n].
 *
 * @param n any positive real
 * @source loader-2000
 * @example
 * stirlingError(1) // => 0.08106146679532726
 */
export function stirlingError(n: number): number {
  return OF_HALVES[2 * n] ?? errorOf(n)
}

function errorOf(n: number): number {
  let shift = 0
  let at = n
  while (at < SERIES_FROM) {
    shift += (at + 0.5) * Math.log1p(1 / at) - 1
    at += 1
  }
  const square = at * at
  let sum = 0
  for (const term of SERIES) sum = sum / square + term
  return shift + sum / at
}

/** Of 0, ½, 1 …: most counts are small, and for them the shift takes longest. */
const OF_HALVES = Array.from({ length: 1000 }, (_, twice) => errorOf(twice / 2))

/**
 * The deviance term x ln(x/m) + m − x, free of cancellation where x is near m.
 *
 * @param x observed, at least 0
 * @param m expected, above 0
 * @source loader-2000
 * @example
 * devianceTerm(2, 1) // => 0.3862943611198906
 */
export function devianceTerm(x: number, m: number): number {
  if (x === 0) return m
  const difference = x - m
  if (Math.abs(difference) >= 0.1 * (x + m)) return x * Math.log(x / m) + m - x
  const v = difference / (x + m)
  let sum = difference * v
  let power = 2 * x * v
  for (let j = 3; ; j += 2) {
    power *= v * v
    const next = sum + power / j
    if (next === sum) return next
    sum = next
  }
}
