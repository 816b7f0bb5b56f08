import { latestPrediction } from '../conditions/latest-prediction.ts'
import { isDetected } from '../units/result-value.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import type { Budget } from './plan-file.ts'
import type { AskedPoint, PlanInput } from './plan-input.ts'
import { proceduresIn } from './procedures-in-use.ts'

export interface PlanWishes {
  readonly budget: Budget
  readonly asked?: readonly AskedPoint[]
  readonly exclude?: readonly AskedPoint[]
}

/** What the record knows that a plan needs; undefined while no building is described. */
export function planInputFrom(state: InvestigationState, wishes: PlanWishes): PlanInput | undefined {
  const { system } = state.building
  if (system === undefined) return undefined
  const { exclude, ...rest } = wishes
  const predicted = latestPrediction(state)
  return {
    ...rest,
    ...(predicted === undefined
      ? {}
      : {
          predictions: {
            places: predicted.entry.body.places,
            residualUnknown: predicted.entry.body.residualUnknown,
            entry: predicted.entry.id,
            stale: predicted.stale,
          },
        }),
    procedures: proceduresIn(state),
    ...(exclude === undefined ? {} : { exclude: [...exclude] }),
    system,
    used: state.cases.exposures
      .filter(({ body }) => state.cases.cases.get(body.caseCode)?.body.classification !== 'not a case')
      .map(({ id, body: { caseCode, place, component, kind } }) => ({
        caseCode,
        place,
        kind,
        entry: id,
        ...(component === undefined ? {} : { component }),
      })),
    sweep: [...state.building.sweep.values()].map(({ id, body: { device, state: found, place, component } }) => ({
      device,
      state: found,
      entry: id,
      ...(place === undefined ? {} : { place }),
      ...(component === undefined ? {} : { component }),
    })),
    history: state.building.history.map(({ id, body: { on, what, components, text } }) => ({
      on,
      what,
      text,
      entry: id,
      components: [...components],
    })),
  }
}

/** The next round's code, and what it is for: R1 is the initial one. */
export function nextRound(state: InvestigationState): string {
  return `R${state.plan.rounds.size + 1}`
}

/**
 * Points of the last adopted round, asked for again in the next: a follow-up looks where the last round looked. Those where Legionella was
 * found in any round are marked, and are asked for also where the last round left them out.
 */
export function pointsOfLastRound(state: InvestigationState): AskedPoint[] {
  const last = [...state.plan.rounds.values()].at(-1)
  if (last === undefined) return []
  const { round, plan } = last.body
  const found = foundAt(state)
  const text = `Sampled in round ${round}: follow-up looks at the same point again.`
  const again = plan.stops.flatMap(({ component }): AskedPoint[] =>
    component === undefined
      ? []
      : [{ component, text, entry: last.id, ...(found.has(component) ? { found: true } : {}) }],
  )
  const named = new Set(again.map(({ component }) => component))
  const elsewhere = [...found].flatMap(([component, { label, entry }]): AskedPoint[] =>
    named.has(component) || state.building.working.component(component) === undefined
      ? []
      : [{ component, text: `Legionella was found here (${label}): follow-up looks again.`, entry, found: true }],
  )
  return [...again, ...elsewhere]
}

/** Samples the last adopted round asked of the laboratory; a round that follows it wants as many. */
export function samplesOfLastRound(state: InvestigationState): number {
  return [...state.plan.rounds.values()].at(-1)?.body.plan.totals.samples ?? 0
}

/** Points with a sample in which Legionella was found, each with the first such result. */
function foundAt({ fieldwork, results }: InvestigationState): ReadonlyMap<string, { label: string; entry: string }> {
  const found = new Map<string, { label: string; entry: string }>()
  for (const { id, body } of results.results) {
    const sample = fieldwork.samples.get(body.label)?.body
    const component = sample?.component
    if (component === undefined || sample?.sampleKind === 'field-blank' || found.has(component)) continue
    if (isDetected(body.value) && body.halfLimitSuspected !== true)
      found.set(component, { label: body.label, entry: id })
  }
  return found
}
