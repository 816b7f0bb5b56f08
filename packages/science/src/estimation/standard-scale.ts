import type { FitParameter } from './fit-problem.ts'

/** A parameter as the search sees it: 0 at its centre, 1 a standard deviation of its prior away. */
export interface StandardScale {
  toValue: (u: number) => number
  start: number
  lower: number
  upper: number
  /** One unit of u on the parameter's scale. */
  unit: number
  hasPrior: boolean
}

/**
 * The standard scale of a parameter. Without a prior a unit is the size of the start (linear) or a factor e (log).
 *
 * @param parameter unknown of a fit
 * @throws RangeError where its figures don't fit together
 * @source tarantola-2005
 * @example
 * standardScale({ id: 'a', scale: 'linear', start: 5, prior: { centre: 3, sd: 2 } }).start // => 1
 */
export function standardScale(parameter: FitParameter): StandardScale {
  const { scale, start, prior, lower, upper } = parameter
  const figures = [start, prior?.centre ?? start, ...(scale === 'log' ? [start, prior?.centre ?? start] : [])]
  const usable = figures.every((each) => Number.isFinite(each) && (scale === 'linear' || each > 0))
  if (!usable || !((prior?.sd ?? 1) > 0))
    throw new RangeError(`Cannot fit ${parameter.id} because its start or prior is impossible: got ${start}`)
  const to = scale === 'log' ? Math.log : (value: number): number => value
  const back = scale === 'log' ? Math.exp : (value: number): number => value
  const centre = to(prior?.centre ?? start)
  const unit = prior?.sd ?? (scale === 'log' ? 1 : Math.abs(start) || 1)
  const standard = (value: number): number => (to(value) - centre) / unit
  const edges = {
    lower: lower === undefined || (scale === 'log' && lower <= 0) ? Number.NEGATIVE_INFINITY : standard(lower),
    upper: upper === undefined ? Number.POSITIVE_INFINITY : standard(upper),
  }
  const within = Math.min(edges.upper, Math.max(edges.lower, standard(start)))
  return { toValue: (u) => back(centre + u * unit), start: within, ...edges, unit, hasPrior: prior !== undefined }
}
