import { normalQuantile } from '../distributions/normal-tail.ts'

/**
 * Values that stand for readings below their limits: robust regression on order statistics. The values keep their own numbers;
 * those below a limit get what the line through logarithm and normal quantile of the values says for their plotting positions.
 *
 * Plotting positions for several limits: with A values from one limit up to the next and B readings or limits below it, the chance of
 * exceeding the limit is PE = PE(next) + A/(A + B)·(1 − PE(next)); values stand at (1 − PE) + (i − c)/(A + 1 − 2c)·(PE − PE(next)), those below
 * at (i − c)/(C + 1 − 2c)·(1 − PE).
 *
 * Special cases: nothing where fewer than two values differ.
 *
 * @param readings values, and limits of those below one
 * @param plottingConstant c, 0 to 0.5
 * @source helsel-cohn-1988
 * @source helsel-2012
 * @example
 * orderStatistics({ values: [10, 1], limits: [] }, 0) // => [1, 10]
 */
export function orderStatistics(
  readings: { values: readonly number[]; limits: readonly number[] },
  plottingConstant: number,
): number[] | undefined {
  if (new Set(readings.values).size < 2) return undefined
  const { known, unknown } = plottingPositions(readings, plottingConstant)
  const line = regression(known.map(({ value, position }) => ({ x: normalQuantile(position), y: Math.log(value) })))
  const modelled = unknown.map((position) => Math.exp(line.intercept + line.slope * normalQuantile(position)))
  return [...readings.values, ...modelled].toSorted((a, b) => a - b)
}

function plottingPositions(
  { values, limits }: { values: readonly number[]; limits: readonly number[] },
  c: number,
): { known: { value: number; position: number }[]; unknown: number[] } {
  const sorted = values.toSorted((a, b) => a - b)
  const distinct = [...new Set(limits)].toSorted((a, b) => a - b)
  const smallest = distinct[0] ?? Number.POSITIVE_INFINITY
  const steps = (sorted[0] ?? 0) < smallest ? [0, ...distinct] : distinct
  const known: { value: number; position: number }[] = []
  const unknown: number[] = []
  let next = { limit: Number.POSITIVE_INFINITY, exceed: 0 }
  for (const limit of steps.toReversed()) {
    const own = sorted.filter((value) => value >= limit && value < next.limit)
    const beneath = sorted.filter((value) => value < limit).length + limits.filter((each) => each <= limit).length
    const at = own.length + beneath === 0 ? 0 : own.length / (own.length + beneath)
    const exceed = next.exceed + at * (1 - next.exceed)
    const censored = limits.filter((each) => each === limit).length
    for (const [i, value] of own.entries())
      known.push({ value, position: 1 - exceed + ((i + 1 - c) / (own.length + 1 - 2 * c)) * (exceed - next.exceed) })
    for (let i = 1; i <= censored; i++) unknown.push(((i - c) / (censored + 1 - 2 * c)) * (1 - exceed))
    next = { limit, exceed }
  }
  return { known, unknown }
}

function regression(points: readonly { x: number; y: number }[]): { intercept: number; slope: number } {
  const mean = (of: (point: { x: number; y: number }) => number) =>
    points.reduce((sum, point) => sum + of(point), 0) / points.length
  const [meanX, meanY] = [mean(({ x }) => x), mean(({ y }) => y)]
  const slope = mean(({ x, y }) => (x - meanX) * (y - meanY)) / mean(({ x }) => (x - meanX) ** 2)
  return { intercept: meanY - slope * meanX, slope }
}
