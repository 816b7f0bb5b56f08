import type { Fit, FitParameter, FitReading, Loss } from '@rillmark/science/estimation/fit-problem.ts'
import { withProbedRanges } from '@rillmark/science/estimation/probed-ranges.ts'
import { regularisedFit } from '@rillmark/science/estimation/regularised-fit.ts'
import type { WaterSystem } from '../building/water-system.ts'
import type { ConditionsOverrides } from '../conditions/overrides.ts'
import type { RunSimulation } from './simulation-run.ts'
import { differenceSd } from './difference-sd.ts'
import type { FieldReading } from './field-reading.ts'
import { FITTING } from './figures.ts'
import type { UncertainInput } from './inputs.ts'
import { mergeOverrides } from './merge-overrides.ts'
import { type PredictedReading, predictedReadings } from './predicted-readings.ts'
import type { Reason } from './reasons.ts'

/** A reason that is taken as given, with its size where it has one. */
export interface Taken {
  reason: Reason
  size: number | undefined
}

/** What a fit works on: the building, the readings it can use with their standard deviations, and how the simulation is run. */
export interface FitGround {
  system: WaterSystem
  readings: readonly FieldReading[]
  fitReadings: readonly FitReading[]
  run: RunSimulation
}

/** Simulation is fine to this share of a standard deviation of an input. */
const DIFFERENCE_STEP = 0.25
/** A further step that lowers the misfit by less is not worth its runs. */
const TOLERANCE = 2e-3
const MOST_RUNS = 120
const HOW = { tolerance: TOLERANCE, mostRuns: MOST_RUNS, differenceStep: DIFFERENCE_STEP, level: FITTING.level }
const ROBUST: Loss = { kind: 'student', freedom: FITTING.freedom }
/** First without giving anything up for lost. */
const FIRST: Loss = { kind: 'huber', limit: FITTING.huberLimit }

interface Tried {
  overrides: readonly ConditionsOverrides[]
  taken: readonly Taken[]
}

function runWith({ system, readings, run }: FitGround, { overrides, taken }: Tried): (PredictedReading | undefined)[] {
  const merged = mergeOverrides([...overrides, ...taken.map(({ reason, size }) => reason.override(size))])
  const done = run(system, merged)
  return done === undefined ? readings.map(() => undefined) : predictedReadings(done, { system, readings })
}

/** Predictions in the order of the readings, NaN where there is none. */
export const predictWith = (ground: FitGround, tried: Tried): number[] =>
  runWith(ground, tried).map((one) => one?.value ?? Number.NaN)

/**
 * The same ground with the standard deviations readings have in the building as found: where a loop stands still, what is read depends on who
 * drew last, and must not be held to the steadiness of a loop that runs.
 */
export function groundOf(ground: FitGround, { fit, inputs, taken }: InputsFit): FitGround {
  const overrides = inputs.map((input, j) => input.override(fit.parameters[j]?.value ?? input.start))
  const spreads = runWith(ground, { overrides, taken })
  const fitReadings = ground.fitReadings.map((one, i) => {
    const [reading, spread] = [ground.readings[i], spreads[i]]
    return reading === undefined || spread === undefined ? one : { ...one, sd: differenceSd(reading, spread) }
  })
  return { ...ground, fitReadings }
}

/** The input a reason's size becomes while it is fitted. */
export function sizeInput({ reason, size }: Taken): FitParameter | undefined {
  if (reason.size === undefined || size === undefined) return undefined
  const tried = reason.sizes.filter((one) => one !== undefined)
  const centre = Math.exp(tried.reduce((sum, one) => sum + Math.log(one), 0) / tried.length)
  return { ...reason.size, id: reason.id, start: size, prior: { centre, sd: reason.size.prior.sd } }
}

export interface InputsFit {
  fit: Fit
  inputs: readonly UncertainInput[]
  taken: readonly Taken[]
}

export interface InputsAsked {
  inputs: readonly UncertainInput[]
  taken: readonly Taken[]
  /** Where to begin, for all inputs that are left and then the sizes; slopes known there spare the first steps. */
  from?: { values: readonly number[]; slopes?: Float64Array | undefined } | undefined
  /** Ranges aren't asked for: slopes are not taken anew at the end. */
  rough?: boolean | undefined
}

/** The inputs that are fitted beside reasons that take the place of others. */
export function inputsBeside(inputs: readonly UncertainInput[], taken: readonly Taken[]): UncertainInput[] {
  const replaced = new Set(taken.flatMap(({ reason }) => reason.replaces))
  return inputs.filter(({ id }) => !replaced.has(id))
}

/**
 * Fits the inputs, and the sizes of reasons taken as given, to the readings: first with a loss that pulls at everything, then with one that
 * lets go of what can't be.
 */
export function fitInputs(ground: FitGround, { inputs: all, taken, from, rough }: InputsAsked): InputsFit {
  const inputs = inputsBeside(all, taken)
  const { parameters, model } = problemOf(ground, { inputs, taken })
  const startAt = (values: readonly (number | undefined)[]): FitParameter[] =>
    parameters.map((one, j) => ({ ...one, start: values[j] ?? one.start }))
  const common = { ...HOW, readings: ground.fitReadings, model }
  const first =
    from === undefined ? regularisedFit({ ...common, parameters, loss: FIRST, rough: true }) : { ...from, runs: 0 }
  const values = 'parameters' in first ? first.parameters.map(({ value }) => value) : first.values
  const last = { ...common, parameters: startAt(values), loss: ROBUST, slopes: first.slopes }
  const fit = regularisedFit(rough === true ? { ...last, rough } : last)
  return {
    fit: { ...fit, runs: fit.runs + first.runs },
    inputs,
    taken: withSizes(
      taken,
      fit.parameters.slice(inputs.length).map(({ value }) => value),
    ),
  }
}

/** The unknowns of a fit, and what the simulation says of the readings for values of theirs. */
function problemOf(ground: FitGround, { inputs, taken }: Pick<InputsFit, 'inputs' | 'taken'>) {
  const parameters: FitParameter[] = [...inputs, ...taken.flatMap((one) => sizeInput(one) ?? [])]
  const model = (values: readonly number[]): number[] =>
    predictWith(ground, {
      overrides: inputs.map((input, j) => input.override(values[j] ?? input.start)),
      taken: withSizes(taken, values.slice(inputs.length)),
    })
  return { parameters, model }
}

/** The same fit, with the edges of its ranges set right by the simulation: two runs for each input the readings say something of. */
export function probedFit(ground: FitGround, found: InputsFit): InputsFit {
  const problem = { ...HOW, ...problemOf(ground, found), readings: ground.fitReadings, loss: ROBUST }
  return { ...found, fit: withProbedRanges(problem, found.fit) }
}

function withSizes(taken: readonly Taken[], sizes: readonly number[]): Taken[] {
  let next = 0
  return taken.map((one) => (sizeInput(one) === undefined ? one : { ...one, size: sizes[next++] ?? one.size }))
}

/** The fit of a problem made straight by known slopes: costs no run of the simulation. */
export function fitAlongSlopes({
  parameters,
  readings,
  predicted,
  slopes,
}: {
  parameters: readonly FitParameter[]
  readings: readonly FitReading[]
  /** At the starts of the parameters. */
  predicted: readonly number[]
  /** Readings × parameters, by the parameters on their scales. */
  slopes: Float64Array
}): Fit {
  const many = parameters.length
  const moved = ({ scale, start }: FitParameter, value: number): number =>
    scale === 'log' ? Math.log(value / start) : value - start
  const model = (values: readonly number[]): number[] => {
    const steps = parameters.map((one, j) => moved(one, values[j] ?? one.start))
    return predicted.map((at, i) => steps.reduce((sum, step, j) => sum + (slopes[i * many + j] ?? 0) * step, at))
  }
  return regularisedFit({ parameters, readings, model, loss: ROBUST, tolerance: 1e-6 })
}
