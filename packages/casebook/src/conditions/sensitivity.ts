import { isOutlet, type WaterSystem } from '../building/water-system.ts'
import type { Assumption, CannotSay, Conditions, ConditionsAnswer, PlaceConditions } from './conditions.ts'
import type { ConditionsOverrides } from './overrides.ts'
import { type Output, OUTPUTS } from './sensitivity-outputs.ts'
import { simulateConditions } from './simulate-conditions.ts'

/** Figures of one simulation; an output without any such water is not there. */
export type OutputFigures = Readonly<Partial<Record<Output, number>>>

/** One simulation to be run: one input at one end of its range, all else as it was. */
export interface PlannedRun {
  readonly input: string
  readonly text: string
  readonly end: 'lower' | 'upper'
  readonly value: number
  readonly unit: string | undefined
  readonly overrides: ConditionsOverrides
}

/** A run with what came out, or why nothing did. */
export interface FinishedRun {
  readonly run: PlannedRun
  readonly figures: OutputFigures | undefined
  readonly reasons?: readonly CannotSay[]
}

/** What one input does to one output. */
export interface Effect {
  readonly input: string
  readonly text: string
  readonly output: Output
  readonly baseline: number
  readonly atLower: number | undefined
  readonly atUpper: number | undefined
  /** between the least and the greatest of the three */
  readonly spread: number
}

export interface Sensitivity {
  readonly baseline: OutputFigures
  /** by output, the largest effect first */
  readonly effects: Readonly<Record<Output, readonly Effect[]>>
  /** inputs by the largest share of any output's widest spread, so that the one worth finding out stands first */
  readonly inputs: readonly { readonly input: string; readonly text: string; readonly share: number }[]
  /** runs that gave nothing, with the reason */
  readonly failed: readonly { readonly run: PlannedRun; readonly reasons: readonly CannotSay[] }[]
}

/** Use of outlets is one input: a building that is used less is used less everywhere. */
const ALL_USE = 'use'
const isUse = ({ id }: Assumption): boolean => /^(guessed:)?use:/.test(id)

/**
 * The simulations that tell how sure a prediction is: every input that was filled in or guessed, at both ends of its range, one at a
 * time. The caller runs them, one after another or in turns with other work.
 *
 * @param base what the prediction itself was simulated with
 */
export function plannedRuns({ assumptions }: Conditions, base: ConditionsOverrides = {}): PlannedRun[] {
  const single = assumptions
    .filter((one) => !isUse(one))
    .flatMap((one) => endsOf([one], { base, text: one.text, input: one.id }))
  const uses = assumptions.filter(isUse)
  return [
    ...single,
    ...endsOf(uses, { base, text: 'Use of all outlets that was filled in or guessed', input: ALL_USE }),
  ]
}

function endsOf(
  together: readonly Assumption[],
  { base, text, input }: { base: ConditionsOverrides; text: string; input: string },
): PlannedRun[] {
  const [first] = together
  const { range, value, unit } = first ?? {}
  if (range === undefined) return []
  return (['lower', 'upper'] as const)
    .filter((end) => range[end] !== value)
    .map((end) => {
      const assumed = Object.fromEntries(together.map(({ id, range: own = range }) => [id, own[end]]))
      const overrides = { ...base, assumed: { ...base.assumed, ...assumed } }
      return { input, text, end, value: range[end], unit, overrides }
    })
}

/** The outputs of one simulation. */
export function outputsOf({ system, conditions }: { system: WaterSystem; conditions: Conditions }): OutputFigures {
  const sides = system.components.filter(isOutlet).flatMap(({ id }) => {
    const circuits = conditions.components[id]?.circuits
    const hot = circuits?.hot ?? circuits?.tempered
    return [...(hot === undefined ? [] : [{ hot: true, place: hot }]), ...cold(circuits?.cold)]
  })
  const of = (pick: (place: PlaceConditions) => number, which = sides): number[] =>
    which.map(({ place }) => pick(place))
  const hots = sides.filter(({ hot }) => hot)
  const colds = sides.filter(({ hot }) => !hot)
  const used = sides.filter(({ place }) => place.neverMoves !== true)
  const heat = (which: typeof sides): number[] => of(({ temperatureC }) => temperatureC.mean, which)
  const growth = of(({ growthIndex }) => growthIndex)
  const age = of(({ ageHours }) => ageHours.mean, used)
  const residual = conditions.residualUnknown === true ? [] : of(({ residualMgPerL }) => residualMgPerL.mean)
  const all: [Output, number | undefined][] = [
    ['hot-mean', mean(heat(hots))],
    ['hot-coolest', least(heat(hots))],
    ['cold-mean', mean(heat(colds))],
    ['cold-warmest', most(heat(colds))],
    ['age-mean', mean(age)],
    ['age-oldest', most(age)],
    ['residual-mean', mean(residual)],
    ['residual-least', least(residual)],
    ['growth-mean', mean(growth)],
    ['growth-most', most(growth)],
  ]
  return Object.fromEntries(all.filter(([, figure]) => figure !== undefined))
}

const cold = (place: PlaceConditions | undefined) => (place === undefined ? [] : [{ hot: false, place }])

const mean = (all: readonly number[]): number | undefined =>
  all.length === 0 ? undefined : all.reduce((sum, one) => sum + one, 0) / all.length
const least = (all: readonly number[]): number | undefined =>
  all.length === 0 ? undefined : all.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY)
const most = (all: readonly number[]): number | undefined =>
  all.length === 0 ? undefined : all.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY)

/** What the runs say: which inputs move which output how far. */
export function sensitivityOf(baseline: OutputFigures, runs: readonly FinishedRun[]): Sensitivity {
  const byInput = Map.groupBy(
    runs.filter(({ figures }) => figures !== undefined),
    ({ run }) => run.input,
  )
  const effects = Object.fromEntries(
    OUTPUTS.map((output): [Output, Effect[]] => [
      output,
      [...byInput.values()]
        .flatMap((same) => effectOf(same, { output, baseline: baseline[output] }))
        .sort((a, b) => b.spread - a.spread || (a.input < b.input ? -1 : 1)),
    ]),
  ) as Record<Output, Effect[]>
  return {
    baseline,
    effects,
    inputs: ordered(effects),
    failed: runs.flatMap(({ run, figures, reasons = [] }) => (figures === undefined ? [{ run, reasons }] : [])),
  }
}

function effectOf(
  runs: readonly FinishedRun[],
  { output, baseline }: { output: Output; baseline: number | undefined },
): Effect[] {
  const [first] = runs
  if (first === undefined || baseline === undefined) return []
  const at = (end: 'lower' | 'upper'): number | undefined => runs.find(({ run }) => run.end === end)?.figures?.[output]
  const [atLower, atUpper] = [at('lower'), at('upper')]
  const all = [baseline, atLower, atUpper].filter((one) => one !== undefined)
  const { input, text } = first.run
  return [{ input, text, output, baseline, atLower, atUpper, spread: Math.max(...all) - Math.min(...all) }]
}

function ordered(effects: Readonly<Record<Output, readonly Effect[]>>): Sensitivity['inputs'] {
  const shares = new Map<string, { input: string; text: string; share: number }>()
  for (const output of OUTPUTS) {
    const widest = effects[output][0]?.spread ?? 0
    for (const { input, text, spread } of effects[output]) {
      const share = Math.max(shares.get(input)?.share ?? 0, widest === 0 ? 0 : spread / widest)
      shares.set(input, { input, text, share })
    }
  }
  return [...shares.values()].sort((a, b) => b.share - a.share || (a.input < b.input ? -1 : 1))
}

export interface SensitivityAsked {
  readonly system: WaterSystem
  readonly conditions: Conditions
  readonly overrides?: ConditionsOverrides | undefined
  /** told the fraction done, 0 to 1; throw from it to stop */
  readonly progress?: ((fraction: number) => void) | undefined
  readonly simulate?: (
    system: WaterSystem,
    options: { seed: number; overrides: ConditionsOverrides },
  ) => ConditionsAnswer
}

/** All the planned runs, one after another. */
export function runSensitivity(asked: SensitivityAsked): Sensitivity {
  const { system, conditions, overrides, progress, simulate = simulateConditions } = asked
  const runs = plannedRuns(conditions, overrides)
  const finished = runs.map((run, at) => {
    progress?.(at / runs.length)
    return finishedRun(run, { system, answer: simulate(system, { seed: conditions.seed, overrides: run.overrides }) })
  })
  progress?.(1)
  return sensitivityOf(outputsOf({ system, conditions }), finished)
}

/** A run with its answer. */
function finishedRun(
  run: PlannedRun,
  { system, answer }: { system: WaterSystem; answer: ConditionsAnswer },
): FinishedRun {
  return answer.kind === 'conditions'
    ? { run, figures: outputsOf({ system, conditions: answer.conditions }) }
    : { run, figures: undefined, reasons: answer.reasons }
}
