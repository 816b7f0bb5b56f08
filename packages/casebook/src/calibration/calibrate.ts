import type { FittedParameter } from '@rillmark/science/estimation/fit-problem.ts'
import { twoSidedNormalQuantile } from '@rillmark/science/distributions/normal.ts'
import type { WaterSystem } from '../building/water-system.ts'
import type { RunSimulation } from './simulation-run.ts'
import type { Calibration, Finding, InputFit, LeftOut, NotFitted, Ranged, ReadingFit, Tried } from './calibration.ts'
import type { FieldReading } from './field-reading.ts'
import { type FitGround, fitInputs, groundOf, type InputsFit, probedFit } from './fit-inputs.ts'
import { differenceSd } from './difference-sd.ts'
import { FITTING } from './figures.ts'
import { type UncertainInput, uncertainInputs } from './inputs.ts'
import { mergeOverrides } from './merge-overrides.ts'
import { type PredictedReading, predictedReadings } from './predicted-readings.ts'
import { reasonsFor, type StrainedInput } from './reasons.ts'
import { USUAL_SEED } from '../conditions/usual-seed.ts'
import { simulateBuilding } from './simulate-building.ts'
import { type BestReason, tryReasons } from './try-reasons.ts'

export interface CalibrateOptions {
  readings: readonly FieldReading[]
  /** Of the times of use; 1 where left out. */
  seed?: number | undefined
  /** Told how many runs of the simulation are done, and of about how many; throw from it to stop. */
  progress?: ((runs: number, ofAbout: number) => void) | undefined
  /** How a building is simulated; the simulation itself where left out. */
  run?: RunSimulation | undefined
}

/** Runs of a fit for each input: its slopes twice, the steps between, and the edges of its range. */
const RUNS_AN_INPUT = 4
const STEPS = 12

/**
 * Fits the uncertain inputs of a building's simulation to what was measured, and looks for what isn't as described.
 * Wanted because a description is half guesses: readings say which guesses hold, and a reading that no likely input explains says where to
 * look for a closed valve, a crossed mixer or a forgotten leg.
 *
 * Screening model: a range covers the inputs that are fitted, not the shape of the model.
 */
export function calibrate(system: WaterSystem, options: CalibrateOptions): Calibration | NotFitted {
  const { readings, seed = USUAL_SEED, progress } = options
  const inputs = uncertainInputs(system, readings)
  const about = inputs.length * RUNS_AN_INPUT + STEPS
  let runs = 0
  const simulate = options.run ?? simulateBuilding({ seed })
  const run: RunSimulation = (changed, overrides) => {
    progress?.(runs, Math.max(about, runs + STEPS))
    runs += 1
    return simulate(changed, overrides)
  }
  const described = run(system, {})
  if (described === undefined)
    return { kind: 'not fitted', why: 'nothing can be simulated of this description', leftOut: [] }
  const usable = usableReadings(predictedReadings(described, { system, readings }), readings)
  if (usable.kept.length === 0)
    return {
      kind: 'not fitted',
      why: 'none of the readings is of a place the simulation knows',
      leftOut: usable.leftOut,
    }
  const ground: FitGround = {
    system,
    run,
    readings: usable.kept.map(({ reading }) => reading),
    fitReadings: usable.kept.map(({ reading, predicted }) => ({
      value: reading.value,
      sd: differenceSd(reading, predicted),
      beyond: reading.beyond,
    })),
  }
  const search = findReasons(ground, bestOfStarts(ground, { inputs, first: fitInputs(ground, { inputs, taken: [] }) }))
  const state = probedFit(search.ground, search.state)
  return calibrationOf({ usable, search: { ...search, state }, inputs, runs })
}

interface Usable {
  kept: readonly { reading: FieldReading; predicted: PredictedReading }[]
  leftOut: readonly LeftOut[]
}

function usableReadings(
  predicted: readonly (PredictedReading | undefined)[],
  readings: readonly FieldReading[],
): Usable {
  const kept = readings.flatMap((reading, i) => {
    const one = predicted[i]
    return one === undefined ? [] : [{ reading, predicted: one }]
  })
  const known = new Set(kept.map(({ reading }) => reading))
  const leftOut = readings
    .filter((reading) => !known.has(reading))
    .map(({ id, component, circuit }) => ({ id, why: `the simulation has no ${circuit} water at ${component}` }))
  return { kept, leftOut }
}

/** How far aside a search begins again, in standard deviations of what is believed. */
const ASIDE_SD = 1.5

/**
 * The lowest of several searches, before anything is called not as described. Behind a mixing valve a loop that loses little for its flow runs
 * hotter than the valve is set, one that loses more does not: a search can settle on the wrong side of that edge. Begun again with strong flow
 * and little loss, and the other way round, it finds the other side. Only where something is left unexplained and there is a mixing valve.
 */
function bestOfStarts(
  ground: FitGround,
  { inputs, first }: { inputs: readonly UncertainInput[]; first: InputsFit },
): InputsFit {
  if (!ground.system.components.some(({ kind }) => kind === 'mixing-valve')) return first
  if (unexplainedIn(ground, first).length === 0 && strainedIn(first).length === 0) return first
  const others = [ASIDE_SD, -ASIDE_SD].map((sds) => {
    const values = inputs.map(({ id, prior: { centre, sd } }, j) => {
      const turn = id.startsWith('loopFlow') ? 1 : id === 'hotLossFactor' ? -1 : 0
      return turn === 0 ? (first.fit.parameters[j]?.value ?? centre) : centre * Math.exp(turn * sds * sd)
    })
    return fitInputs(ground, { inputs, taken: [], from: { values } })
  })
  return others.reduce((best, one) => (costOf(one.fit) < costOf(best.fit) ? one : best), first)
}

const costOf = ({ misfit, penalty }: InputsFit['fit']): number => misfit + penalty

interface Search {
  /** With the standard deviations of the building as found. */
  ground: FitGround
  state: InputsFit
  findings: Finding[]
  tried: readonly Tried[]
}

/** Takes the likeliest reason as given, fits again, and looks whether something is left. */
function findReasons(described: FitGround, first: InputsFit): Search {
  let [ground, state] = [described, first]
  const findings: Finding[] = []
  let tried: readonly Tried[] = []
  for (let left = FITTING.mostReasons; left >= 0; left--) {
    const unexplained = unexplainedIn(ground, state)
    const strained = strainedIn(state)
    tried = []
    if (unexplained.length === 0 && strained.length === 0) break
    const taken = new Set(state.taken.map(({ reason }) => reason.id))
    const reasons = reasonsFor({ system: ground.system, unexplained, strained })
    const round = tryReasons(ground, { from: state, reasons: reasons.filter(({ id }) => !taken.has(id)) })
    tried = round.tried
    if (left === 0 || round.best === undefined) break
    ground = groundOf(ground, round.best)
    const found = settledIn(ground, { inputs: state.inputs, rough: round.best })
    findings.push(...findingOf(ground, { before: unexplained, round, found }))
    state = found
  }
  return { ground, state, findings, tried }
}

function unexplainedIn({ readings }: FitGround, { fit }: InputsFit): FieldReading[] {
  return readings.filter((_, i) => Math.abs(fit.standardised[i] ?? 0) > FITTING.unexplainedBeyond)
}

function strainedIn({ fit, inputs }: InputsFit): StrainedInput[] {
  return inputs.flatMap((input, j) => {
    const fitted = fit.parameters[j]
    if (fitted === undefined || !isStrained(input, fitted)) return []
    return [{ id: input.id, value: fitted.value, parts: input.parts }]
  })
}

function isStrained({ scale, prior }: UncertainInput, fitted: FittedParameter | undefined): boolean {
  if (fitted === undefined) return false
  const moved = scale === 'log' ? Math.log(fitted.value / prior.centre) : fitted.value - prior.centre
  return Math.abs(moved) / prior.sd > FITTING.strainedBeyond
}

/** A rough fit taken to its end, with ranges. */
function settledIn(
  ground: FitGround,
  { inputs, rough: { fit, taken } }: { inputs: readonly UncertainInput[]; rough: InputsFit },
): InputsFit {
  return fitInputs(ground, {
    inputs,
    taken,
    from: { values: fit.parameters.map(({ value }) => value), slopes: fit.slopes },
  })
}

function findingOf(
  ground: FitGround,
  { before, round, found }: { before: readonly FieldReading[]; round: BestReason; found: InputsFit },
): Finding[] {
  if (round.best === undefined) return []
  const { reason, score } = round.best
  const { id, kind, words, parts } = reason
  const left = new Set(unexplainedIn(ground, found).map((reading) => reading.id))
  const fitted = found.fit.parameters.find((one) => one.id === id)
  const size = reason.size
  return [
    {
      id,
      kind,
      words,
      parts,
      ...(fitted === undefined || size === undefined
        ? {}
        : { size: { words: size.words, unit: size.unit, value: fitted.value, range: fitted.range } }),
      score,
      explains: before.map((reading) => reading.id).filter((one) => !left.has(one)),
      orElse: round.tried.filter(
        (one) => one.id !== id && one.score > FITTING.convincingAbove && score - one.score < FITTING.aboutAsWellWithin,
      ),
    },
  ]
}

interface Result {
  usable: Usable
  search: Search
  inputs: readonly UncertainInput[]
  runs: number
}

function calibrationOf({ usable, search, inputs, runs }: Result): Calibration {
  const { ground, state, findings, tried } = search
  const { fit } = state
  const readings = usable.kept.map(({ reading, predicted }, i): ReadingFit => {
    const standardised = fit.standardised[i] ?? 0
    return {
      reading,
      before: predicted.value,
      after: fit.predicted[i] ?? predicted.value,
      sd: ground.fitReadings[i]?.sd ?? reading.sd,
      inputSd: fit.predictedSd[i] ?? 0,
      standardised,
      unexplained: Math.abs(standardised) > FITTING.unexplainedBeyond,
    }
  })
  const fitted = new Map(fit.parameters.map((one) => [one.id, one]))
  return {
    kind: 'fitted',
    level: FITTING.level,
    readings,
    leftOut: usable.leftOut,
    inputs: inputs.flatMap((input) => inputFit(input, fitted.get(input.id)) ?? []),
    findings: findings.map((finding) => ({ ...finding, ...sizeNow(finding, fitted.get(finding.id)) })),
    unexplained: readings.filter((one) => one.unexplained).map(({ reading }) => reading.id),
    tried: findings.length > 0 && tried.length === 0 ? [] : tried,
    overrides: mergeOverrides([
      ...state.inputs.map((input) => input.override(fitted.get(input.id)?.value ?? input.start)),
      ...state.taken.map(({ reason, size }) => reason.override(size)),
    ]),
    runs,
    settled: fit.settled,
  }
}

/** The size of what was found, as it stands with all that was found after it. */
function sizeNow({ size }: Finding, fitted: FittedParameter | undefined): Pick<Finding, 'size'> {
  return size === undefined || fitted === undefined
    ? {}
    : { size: { ...size, value: fitted.value, range: fitted.range } }
}

function inputFit(input: UncertainInput, fitted: FittedParameter | undefined): InputFit | undefined {
  if (fitted === undefined) return undefined
  const { id, words, unit, parts } = input
  return {
    id,
    words,
    unit,
    parts,
    before: believedBefore(input),
    after: { value: fitted.value, range: fitted.range },
    sdRatio: fitted.sdRatio ?? 1,
    strained: isStrained(input, fitted),
  }
}

function believedBefore({ scale, prior: { centre, sd } }: UncertainInput): Ranged {
  const wide = twoSidedNormalQuantile(FITTING.level) * sd
  const range =
    scale === 'log'
      ? { lower: centre * Math.exp(-wide), upper: centre * Math.exp(wide) }
      : { lower: centre - wide, upper: centre + wide }
  return { value: centre, range }
}
