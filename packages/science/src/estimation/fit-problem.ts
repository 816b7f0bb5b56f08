/** One unknown of a fit. */
export interface FitParameter {
  id: string
  /** The scale on which it is taken to be normal: `log` for what is above 0 and known by a factor. */
  scale: 'linear' | 'log'
  /** Where the search begins, in its own unit. */
  start: number
  /** What is believed before any reading: the centre in its own unit, the standard deviation on the scale. Left out: nothing. */
  prior?: { centre: number; sd: number } | undefined
  /** What it can't go below or above, in its own unit. */
  lower?: number | undefined
  upper?: number | undefined
}

/** One reading: a value with its standard deviation, or the statement that it lay beyond the limit `value`. */
export interface FitReading {
  value: number
  sd: number
  beyond?: 'below' | 'above' | undefined
}

/** How much a reading far from its prediction counts. */
export type Loss = { kind: 'squares' } | { kind: 'huber'; limit: number } | { kind: 'student'; freedom: number }

export interface FitProblem {
  parameters: readonly FitParameter[]
  readings: readonly FitReading[]
  /** Predictions in the order of the readings, for values in the order of the parameters; not finite where there is none. */
  model: (values: readonly number[]) => ArrayLike<number>
  loss: Loss
  /** Share of the misfit below which a further step isn't worth taking; 1e-10 where left out. */
  tolerance?: number | undefined
  /** Runs of the model at most; 200 where left out. */
  mostRuns?: number | undefined
  /** Step of the differences: in standard deviations of the prior, or as a share of the start; 1e-6 where left out. */
  differenceStep?: number | undefined
  /** Slopes known from an earlier fit of the same parameters near the start, as `Fit.slopes`: spares their runs. */
  slopes?: Float64Array | undefined
  /** Slopes are not taken anew where the search settles, for a first fit whose ranges nobody reads. */
  rough?: boolean | undefined
  /** Chance that a range holds; 0.9 where left out. */
  level?: number | undefined
  /** Told how many runs are done; throw from it to stop. */
  onRun?: ((runs: number) => void) | undefined
}

export interface FittedParameter {
  id: string
  value: number
  /** On its scale: for `log` of the natural logarithm. */
  sd: number
  range: { lower: number; upper: number }
  /** Standard deviation after over before: 1 where the readings say nothing of it. Undefined without a prior. */
  sdRatio: number | undefined
  atBound: boolean
}

export interface Fit {
  parameters: readonly FittedParameter[]
  /** On the scales of the parameters, row by row. */
  covariance: Float64Array
  predicted: Float64Array
  /** Of the predictions by the parameters on their scales; readings × parameters, row by row. */
  slopes: Float64Array
  /** How far the predictions may lie from these, standard deviations from the parameters alone. */
  predictedSd: Float64Array
  /** Reading less prediction, in standard deviations of the reading; 0 where a limit is kept to. */
  standardised: Float64Array
  /** What share a reading counts, 1 where it agrees. */
  weights: Float64Array
  /** Σ of the losses, and half the squares of how far the parameters went from their priors. */
  misfit: number
  penalty: number
  runs: number
  settled: boolean
}
