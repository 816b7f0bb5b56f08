import { gammaCdf } from '../distributions/gamma.ts'
import type { Stratum } from './stratified-two-by-two.ts'

export interface HomogeneityTest {
  breslowDay: number
  tarone: number
  degreesOfFreedom: number
  p: number
}

/**
 * Whether one odds ratio fits every table: Breslow and Day's chi-squared, and with Tarone's correction.
 *
 * Σ (a − A)² / V, A the exposed cases the common odds ratio expects under the margins and V their variance there;
 * Tarone takes (Σ (a − A))² / Σ V off.
 *
 * @param tables with people in both rows and both columns
 * @param oddsRatio the common one, above 0
 * @source breslow-day-1980
 * @source tarone-1985
 * @example
 * breslowDay([{ exposedCases: 4, exposedWell: 1, unexposedCases: 2, unexposedWell: 3 }], 6).breslowDay // => 0
 */
export function breslowDay(tables: readonly Stratum[], oddsRatio: number): HomogeneityTest {
  let [sum, excess, variances] = [0, 0, 0]
  for (const table of tables) {
    const { expected, variance } = fitted(table, oddsRatio)
    const difference = table.exposedCases - expected
    sum += (difference * difference) / variance
    excess += difference
    variances += variance
  }
  const tarone = Math.max(0, sum - (excess * excess) / variances)
  const degreesOfFreedom = tables.length - 1
  const p = degreesOfFreedom === 0 ? 1 : gammaCdf(tarone / 2, { shape: degreesOfFreedom / 2, tail: 'upper' })
  return { breslowDay: sum, tarone, degreesOfFreedom, p }
}

/** The exposed cases A with A(d₀ + A) = ψ(n₁ − A)(m − A) for the margins, and the variance 1 / Σ 1/cell. */
function fitted({ exposedCases, exposedWell, unexposedCases, unexposedWell }: Stratum, oddsRatio: number) {
  const [exposed, unexposed] = [exposedCases + exposedWell, unexposedCases + unexposedWell]
  const cases = exposedCases + unexposedCases
  const square = 1 - oddsRatio
  const linear = unexposed - cases + oddsRatio * (exposed + cases)
  const constant = -oddsRatio * exposed * cases
  const root = Math.sqrt(linear * linear - 4 * square * constant)
  // The form without a difference of nearly equal numbers: `linear` is positive wherever the odds ratio is 1 or more.
  const expected = linear >= 0 ? (-2 * constant) / (linear + root) : (root - linear) / (2 * square)
  const cells = [expected, exposed - expected, cases - expected, unexposed - cases + expected]
  return { expected, variance: 1 / cells.reduce((sum, cell) => sum + 1 / Math.max(cell, SMALLEST_CELL), 0) }
}

/** Rounding must not empty a fitted cell. */
const SMALLEST_CELL = 1e-12
