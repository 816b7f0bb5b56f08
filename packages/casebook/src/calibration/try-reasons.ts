import type { Fit, FitParameter } from '@rillmark/science/estimation/fit-problem.ts'
import type { Tried } from './calibration.ts'
import {
  fitAlongSlopes,
  type FitGround,
  fitInputs,
  type InputsFit,
  inputsBeside,
  predictWith,
  sizeInput,
  type Taken,
} from './fit-inputs.ts'
import { FITTING } from './figures.ts'
import { type Reason, siblingsOf } from './reasons.ts'

/** The reason that explains the readings best, roughly fitted, with all that were tried. */
export interface BestReason {
  best: (InputsFit & { reason: Reason; score: number }) | undefined
  tried: readonly Tried[]
}

/** As many of the best are fitted with the simulation itself, if they are not clearly behind: slopes alone are rough. */
const AT_LEAST_FITTED = 2
/** More are while they look about as good as the best fitted; each costs some ten runs. */
const MOST_FITTED = 8
/** As many of the best are tried with a second size. */
const MOST_SIZED = 4
/** Of the places beside the best, as many are fitted as well. */
const MOST_BESIDE = 2
const MOST_NEXT_TO = 10

interface Asked {
  from: InputsFit
  reasons: readonly Reason[]
}

/**
 * Tries reasons one by one: the simulation is run with each as given, the inputs are then set right along their known slopes, and the gain is
 * twice the fall of misfit and penalty, less ln(readings) for the reason and for its size, less 2·ln(reasons tried), since many were looked
 * at. The best are fitted with the simulation itself.
 */
export function tryReasons(ground: FitGround, { from, reasons }: Asked): BestReason {
  const chosen = withinRuns(reasons)
  const scoreOf = (fit: Fit, taken: Taken): number => {
    const terms = sizeInput(taken) === undefined ? 1 : 2
    const penalty = Math.log(ground.readings.length) * terms + 2 * Math.log(Math.max(1, chosen.length))
    return 2 * (costOf(from.fit) - costOf(fit)) - penalty
  }
  const ranked = (all: readonly Candidate[]): (Candidate & { score: number })[] =>
    all.map((one) => ({ ...one, score: scoreOf(one.along, one.taken) })).toSorted((a, b) => b.score - a.score)
  const first = ranked(chosen.flatMap((reason) => firstOf(ground, { from, reason }) ?? []))
  const candidates = ranked(first.map((one, at) => (at < MOST_SIZED ? sized(ground, { from, candidate: one }) : one)))
  const refine = (one: Candidate): Fitted => {
    const { found } = roughly(ground, { from, candidate: one })
    return { ...one, found, score: scoreOf(found.fit, one.taken) }
  }
  const best = fittedInTurn(candidates, refine)
  const beside =
    best[0] === undefined
      ? []
      : ranked(nextTo(ground, { from, found: best[0].found, known: new Set(chosen.map(({ id }) => id)) }))
  const fitted = [...best, ...beside.slice(0, MOST_BESIDE).map(refine)].toSorted((a, b) => b.score - a.score)
  const known = new Map(fitted.map(({ taken, score }) => [taken.reason.id, score]))
  const tried = candidates
    .map(({ taken: { reason }, score }) => ({
      id: reason.id,
      kind: reason.kind,
      words: reason.words,
      score: known.get(reason.id) ?? score,
    }))
    .toSorted((a, b) => b.score - a.score)
  const winner = fitted[0]
  if (winner === undefined || winner.score < FITTING.convincingAbove) return { best: undefined, tried }
  return { best: { ...winner.found, reason: winner.taken.reason, score: winner.score }, tried }
}

const costOf = ({ misfit, penalty }: Fit): number => misfit + penalty

interface Fitted extends Candidate {
  found: InputsFit
  score: number
}

/**
 * Candidates, the most promising first, fitted with the simulation one after the other until what is left looks worse than the best that was
 * fitted: along slopes a reason far from the building as described can look much better than it is, and must not hide the next.
 */
function fittedInTurn(
  candidates: readonly (Candidate & { score: number })[],
  refine: (candidate: Candidate) => Fitted,
): Fitted[] {
  const top = candidates[0]?.score ?? 0
  const fitted: Fitted[] = []
  for (const [at, candidate] of candidates.slice(0, MOST_FITTED).entries()) {
    const reached = fitted.reduce((most, { score }) => Math.max(most, score), 0)
    const near = at < AT_LEAST_FITTED && top - candidate.score < FITTING.clearlyBehindBy
    if (candidate.score <= 0 || !(near || candidate.score > reached - FITTING.aboutAsWellWithin)) break
    fitted.push(refine(candidate))
  }
  return fitted.toSorted((a, b) => b.score - a.score)
}

/** Each reason costs a run; those least near are left out. */
const withinRuns = (reasons: readonly Reason[]): readonly Reason[] => reasons.slice(0, FITTING.mostTried)

interface Candidate {
  taken: Taken
  shot: Shot
  /** Along the slopes of the fit before, and of its size between the two that were tried. */
  along: Fit
  slopes: Float64Array
}

function firstOf(ground: FitGround, { from, reason }: { from: InputsFit; reason: Reason }): Candidate | undefined {
  const shot = shotOf(ground, { from, taken: { reason, size: reason.sizes[0] } })
  return shot === undefined ? undefined : alongSlopes(ground, { from, shot, other: undefined })
}

/** The same with a second size, so that the size too has a slope. */
function sized(ground: FitGround, { from, candidate }: { from: InputsFit; candidate: Candidate }): Candidate {
  const { shot, taken } = candidate
  const [, second] = taken.reason.sizes
  const other = second === undefined ? undefined : shotOf(ground, { from, taken: { ...taken, size: second } })
  if (other === undefined) return candidate
  const both = [alongSlopes(ground, { from, shot, other }), alongSlopes(ground, { from, shot: other, other: shot })]
  return both.toSorted((a, b) => costOf(a.along) - costOf(b.along))[0] ?? candidate
}

/** The same reason at other places of its riser, of the size that was found. */
function nextTo(
  ground: FitGround,
  { from, found, known }: { from: InputsFit; found: InputsFit; known: ReadonlySet<string> },
): Candidate[] {
  const winner = found.taken.at(-1)
  if (winner === undefined) return []
  const others = siblingsOf(ground.system, winner.reason).filter(({ id }) => !known.has(id))
  return others.slice(0, MOST_NEXT_TO).flatMap((reason) => {
    const shot = shotOf(ground, { from, taken: { reason, size: winner.size } })
    return shot === undefined ? [] : alongSlopes(ground, { from, shot, other: undefined })
  })
}

/** What the simulation says with a reason as given, the inputs as fitted before. */
interface Shot {
  taken: Taken
  parameters: readonly FitParameter[]
  predicted: readonly number[]
}

function shotOf(ground: FitGround, { from, taken }: { from: InputsFit; taken: Taken }): Shot | undefined {
  const all = [...from.taken, taken]
  const fitted = new Map(from.fit.parameters.map(({ id, value }) => [id, value]))
  const inputs = inputsBeside(from.inputs, all)
  const values = inputs.map((input) => fitted.get(input.id) ?? input.start)
  const overrides = inputs.map((input, j) => input.override(values[j] ?? input.start))
  const predicted = predictWith(ground, { overrides, taken: all })
  if (!predicted.every(Number.isFinite)) return undefined
  const sizes = all.flatMap((one) => sizeInput(one) ?? [])
  return {
    taken,
    parameters: [...inputs.map((input, j) => ({ ...input, start: values[j] ?? input.start })), ...sizes],
    predicted,
  }
}

function alongSlopes(
  ground: FitGround,
  { from, shot, other }: { from: InputsFit; shot: Shot; other: Shot | undefined },
): Candidate {
  const { parameters, predicted, taken } = shot
  const before = new Map(from.fit.parameters.map(({ id }, j) => [id, j]))
  const many = from.fit.parameters.length
  const sized =
    taken.size === undefined || other?.taken.size === undefined ? 0 : Math.log(other.taken.size / taken.size)
  const slopes = Float64Array.from(
    predicted.flatMap((value, i) =>
      parameters.map(({ id }) => {
        const j = before.get(id)
        if (j !== undefined) return from.fit.slopes[i * many + j] ?? 0
        return sized === 0 ? 0 : ((other?.predicted[i] ?? value) - value) / sized
      }),
    ),
  )
  return { taken, shot, along: fitAlongSlopes({ parameters, readings: ground.fitReadings, predicted, slopes }), slopes }
}

/** Fitted with the simulation, beginning where the slopes lead. */
function roughly(
  ground: FitGround,
  { from, candidate }: { from: InputsFit; candidate: Candidate },
): { found: InputsFit } {
  const { taken, along, slopes } = candidate
  const values = along.parameters.map(({ value }) => value)
  const all = { inputs: from.inputs, taken: [...from.taken, taken] }
  return { found: fitInputs(ground, { ...all, from: { values, slopes }, rough: true }) }
}
