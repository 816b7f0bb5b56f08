import { isLabelled } from '../plan/samples-at.ts'
import type { Stop } from '../plan/plan-file.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { type Task, tasksFor } from './guided-steps.ts'
import type { BodyOf } from '../entry/kinds.ts'
import { ownProcedures } from '../plan/procedures-in-use.ts'
import { afterHot, firstFlushTooLate, hotTooEarly } from './order.ts'
import { residualTest } from './residual-test.ts'
import type { StopVisit } from './state.ts'
import { findStop, sampleName, standingOf, type StopAt, visitAt } from './stops.ts'

export interface GuidedStep extends Task {
  readonly state: 'done' | 'left out' | 'current' | 'ahead'
  /** why the record would not take it now; a recorded departure lifts it */
  readonly refused?: string | undefined
}

export type Outcome = BodyOf<'stop.finished'>['outcome']

export interface VisitPlan {
  readonly stop: Stop
  readonly addedBecause?: string | undefined
  readonly steps: readonly GuidedStep[]
  /** the step at hand; undefined when all are done or left out */
  readonly current: GuidedStep | undefined
  readonly settled: number
  readonly visit: StopVisit | undefined
  /** what can truly be said of the stop as it stands */
  readonly outcome: Outcome
}

/** The guided steps of one stop, in order, each done, left out, at hand or ahead. `author`: who is led; cautions are per person. */
export function visitPlan(at: StopAt & { state: InvestigationState; author?: string }): VisitPlan | undefined {
  const { state, author } = at
  const known = findStop(state, at)
  if (known === undefined) return undefined
  const visit = visitAt(state, at)
  const heard = cautionsHeard(state, { round: at.round, author })
  let current: GuidedStep | undefined
  const steps = tasksFor(known.stop.samples, { residual: residualTest(state).quantity, own: ownProcedures(state) }).map(
    (task): GuidedStep => {
      const settled = heard.has(task.name) ? 'done' : settledAs(visit, task)
      if (settled !== undefined) return { ...task, state: settled }
      const refused = refusal(state, { at, task })
      const guided = { ...task, state: current === undefined ? ('current' as const) : ('ahead' as const), refused }
      current ??= guided
      return guided
    },
  )
  const settled = steps.filter(({ state: is }) => is === 'done' || is === 'left out').length
  return { ...known, steps, current, settled, visit, outcome: outcomeOf(known.stop, visit) }
}

/** Who should not sample is said to each person once a round; the hazards of a plant or a device at each of them. */
const ONCE_A_ROUND: ReadonlySet<string> = new Set(['who'])

function cautionsHeard(
  state: InvestigationState,
  { round, author }: { round: string; author: string | undefined },
): ReadonlySet<string> {
  const heard = new Set<string>()
  for (const visit of state.fieldwork.visits.values())
    if (visit.round === round)
      for (const step of visit.steps)
        if (ONCE_A_ROUND.has(step.body.step) && (author === undefined || author === step.author))
          heard.add(step.body.step)
  return heard
}

function settledAs(visit: StopVisit | undefined, task: Task): 'done' | 'left out' | undefined {
  if (visit === undefined) return undefined
  const { sample, quantity, circuit } = task
  if (
    quantity !== undefined &&
    visit.readings.some(({ body }) => body.quantity === quantity && (body.circuit ?? circuit) === circuit)
  )
    return 'done'
  const name = sample === undefined ? undefined : sampleName(sample)
  const standing = sample === undefined ? 'open' : standingOf(visit, sample)
  if (standing === 'collected' && task.step.kind !== 'note') return 'done'
  const about = (body: About): boolean => isAbout(task, { body, sample: name })
  if (visit.steps.some(({ body }) => about(body))) return 'done'
  if (standing === 'left out') return 'left out'
  return visit.deviations.some(({ body }) => body.leftOut === true && about(body)) ? 'left out' : undefined
}

type About = {
  readonly procedure?: string | undefined
  readonly step?: string | undefined
  readonly label?: string | undefined
}

function isAbout({ procedure, name }: Task, { body, sample }: { body: About; sample: string | undefined }): boolean {
  if (body.procedure !== procedure || body.step !== name) return false
  return sample === undefined || body.label === undefined || body.label === sample
}

function refusal(state: InvestigationState, { at, task }: { at: StopAt; task: Task }): string | undefined {
  const visit = visitAt(state, at)
  if (task.quantity === 'hot-temperature') return hotTooEarly(state, at)
  if (task.sample === undefined || !isLabelled(task.sample)) return undefined
  if (task.step.kind !== 'collect' && task.step.kind !== 'label') return undefined
  return task.sample.sampleKind === 'first-flush-swab' ? firstFlushTooLate(state, visit) : afterHot(visit)
}

function outcomeOf({ samples }: Stop, visit: StopVisit | undefined): Outcome {
  const standings = samples.map((sample) => standingOf(visit, sample))
  if (standings.every((standing) => standing === 'collected')) return 'sampled'
  const anything = (visit?.samples.length ?? 0) > 0 || (visit?.readings.length ?? 0) > 0
  return anything ? 'partly' : 'not possible'
}
