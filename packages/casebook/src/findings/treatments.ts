import { localDate } from '../results/known-samples.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { daysBetween } from '../units/iso-date.ts'

/** Something done to the water that changes what a sample taken after it can show. */
export interface Treatment {
  readonly what: string
  readonly on: string
  /** outlets it was done at; undefined where it was done to the whole system or nobody said */
  readonly components: ReadonlySet<string> | undefined
  /** id of the entry that says so */
  readonly entry: string
}

const TREATING_MEASURES: ReadonlySet<string> = new Set([
  'fit point-of-use filter',
  'flush',
  'heat disinfection',
  'shock chlorination',
  'continuous disinfection',
  'clean or descale',
])
const TREATING_EVENTS: ReadonlySet<string> = new Set(['disinfection', 'flushing', 'filter fitted'])

/** Every treatment in the record: measures carried out or proved at an outlet, and events in the building's history. */
export function treatmentsOf(state: InvestigationState): Treatment[] {
  const found: Treatment[] = []
  for (const { id, body } of state.building.history)
    if (TREATING_EVENTS.has(body.what))
      found.push({ what: body.what, on: body.until ?? body.on, components: setOf(body.components), entry: id })
  for (const { ordered, proofs, completed } of state.control.measures.values()) {
    if (!TREATING_MEASURES.has(ordered.body.measure)) continue
    const what = ordered.body.measure
    for (const { id, offset, body } of proofs)
      found.push({
        what,
        on: localDate({ instant: body.at, offset }),
        components: body.component === undefined ? setOf(ordered.body.components) : new Set([body.component]),
        entry: id,
      })
    if (completed !== undefined && completed.body.outcome !== 'dropped')
      found.push({
        what,
        on: completed.body.completedOn,
        components: setOf(ordered.body.components),
        entry: completed.id,
      })
  }
  return found.sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0))
}

export interface SinceTreatment {
  readonly treatment: Treatment
  readonly days: number
}

/** The last treatment of a place on or before the day a sample was taken there. A sample of the same day counts as taken after it. */
export function sinceTreatment(
  treatments: readonly Treatment[],
  sample: { collectedOn: string | undefined; component: string | undefined },
): SinceTreatment | undefined {
  const { collectedOn, component } = sample
  if (collectedOn === undefined) return undefined
  const last = treatments.findLast(
    ({ on, components }) =>
      on <= collectedOn && (components === undefined || (component !== undefined && components.has(component))),
  )
  return last === undefined ? undefined : { treatment: last, days: daysBetween(last.on, collectedOn) }
}

function setOf(components: readonly string[]): ReadonlySet<string> | undefined {
  return components.length === 0 ? undefined : new Set(components)
}
