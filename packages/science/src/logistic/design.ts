import { choleskyOf } from '../likelihood/cholesky.ts'
import type { Patterns } from './penalised-fit.ts'

/** A person: ill (1) or well (0), and numbers under their names. */
export type LogisticRow = { outcome: 0 | 1 } & Record<string, number>

export interface ScaledDesign {
  /** The intercept first, then the covariates. */
  names: string[]
  /** What each column was divided by. */
  scales: number[]
  patterns: Patterns
}

/**
 * The names of all covariates, in the order first met.
 *
 * @param rows people
 * @source none: it computes nothing of the trade
 * @example
 * namesOf([{ outcome: 1, age: 70 }])[0] // => "age"
 */
export function namesOf(rows: readonly Readonly<Record<string, number>>[]): string[] {
  const names = new Set<string>()
  for (const row of rows) for (const name in row) if (name !== 'outcome') names.add(name)
  return [...names]
}

/**
 * The rows as columns of like size, people with the same covariates together.
 *
 * @param rows people with the same covariates each
 * @source none: it computes nothing of the trade
 * @example
 * scaledDesign([{ outcome: 1, x: 2 }, { outcome: 0, x: 2 }]).patterns.trials.length // => 1
 */
export function scaledDesign(rows: readonly LogisticRow[]): ScaledDesign {
  const known = DESIGNS.get(rows)
  if (known !== undefined) return known
  const design = designOf(rows)
  DESIGNS.set(rows, design)
  return design
}

/** The check of the input and the fit want the same design of the same rows. */
const DESIGNS = new WeakMap<readonly LogisticRow[], ScaledDesign>()

function designOf(rows: readonly LogisticRow[]): ScaledDesign {
  const covariates = namesOf(rows)
  const scales = [1, ...covariates.map((name) => rootMeanSquare(rows, name))]
  const groups = new Map<string, { x: number[]; trials: number; events: number }>()
  for (const row of rows) {
    const x = [1, ...covariates.map((name, j) => (row[name] ?? 0) / (scales[j + 1] ?? 1))]
    const key = x.join()
    const before = groups.get(key) ?? { x, trials: 0, events: 0 }
    groups.set(key, { x, trials: before.trials + 1, events: before.events + row.outcome })
  }
  const all = [...groups.values()]
  const x = Float64Array.from(all.flatMap((group) => group.x))
  return {
    names: ['intercept', ...covariates],
    scales,
    patterns: {
      columns: scales.length,
      x,
      products: productsOf(x, scales.length),
      trials: Float64Array.from(all, ({ trials }) => trials),
      events: Float64Array.from(all, ({ events }) => events),
    },
  }
}

function productsOf(x: Float64Array, columns: number): Float64Array {
  const products = new Float64Array(((x.length / columns) * columns * (columns + 1)) / 2)
  for (let at = 0, t = 0; at < x.length; at += columns)
    for (let j = 0; j < columns; j++)
      for (let k = 0; k <= j; k++) products[t++] = (x[at + j] as number) * (x[at + k] as number)
  return products
}

function rootMeanSquare(rows: readonly LogisticRow[], name: string): number {
  const values = Float64Array.from(rows, (row) => row[name] ?? 0)
  let largest = 0
  for (const value of values) largest = Math.max(largest, Math.abs(value))
  if (largest === 0) return 1
  let sum = 0
  for (const value of values) sum += (value / largest) * (value / largest)
  return largest * Math.sqrt(sum / values.length)
}

/**
 * The first covariate that the intercept and those before it make up, or nothing.
 *
 * @param rows people with the same covariates each
 * @param design of these rows, where it is at hand
 * @source none: it computes nothing of the trade
 * @example
 * dependentColumn([{ outcome: 1, x: 2 }, { outcome: 0, x: 2 }]) // => "x"
 */
export function dependentColumn(rows: readonly LogisticRow[], design = scaledDesign(rows)): string | undefined {
  const { names, patterns } = design
  const { columns, x } = patterns
  for (let size = 1; size <= columns; size++) {
    const gram = new Float64Array(size * size)
    for (let r = 0; r < x.length; r += columns)
      for (let j = 0; j < size; j++)
        for (let k = 0; k < size; k++)
          gram[j * size + k] = (gram[j * size + k] ?? 0) + (x[r + j] ?? 0) * (x[r + k] ?? 0)
    if (choleskyOf(gram, size) === undefined) return names[size - 1]
  }
  return undefined
}
