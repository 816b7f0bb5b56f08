import type { InvestigationState } from '../state/investigation-state.ts'
import { localDate } from '../results/known-samples.ts'
import { type IsoDate, daysBetween } from '../units/iso-date.ts'
import { isOutlet } from '../building/water-system.ts'
import type { MeasureKind } from './measure-progress.ts'
import type { Measure } from './state.ts'

/** Measures after which a sample no longer tells what the water was like: they disturb, kill or hold back what grows. */
export const TREATING_MEASURES: ReadonlySet<MeasureKind> = new Set([
  'fit point-of-use filter',
  'flush',
  'heat disinfection',
  'shock chlorination',
  'continuous disinfection',
  'clean or descale',
])

const TREATING_EVENTS: ReadonlySet<string> = new Set(['disinfection', 'flushing', 'filter fitted'])

/** Something done to a point before a day, after which a sample there is flagged. */
export interface Treatment {
  readonly what: string
  readonly on: IsoDate
  readonly daysSince: number
  readonly where: 'this point' | 'whole system'
  /** the entry that says so */
  readonly entry: string
}

/**
 * Every treatment a point had on or before a day, the latest first: measures proved or completed there, and events told in the building's
 * history. What names no place, or names plant that feeds the building, counts for every point.
 */
export function treatmentsAt(
  state: InvestigationState,
  { component, date }: { component: string | undefined; date: IsoDate },
): Treatment[] {
  return [...measuresAt(state, component), ...historyAt(state, component)]
    .filter(({ on }) => on <= date)
    .map((treatment) => ({ ...treatment, daysSince: daysBetween(treatment.on, date) }))
    .sort((a, b) => a.daysSince - b.daysSince)
}

type Undated = Omit<Treatment, 'daysSince'>

function measuresAt(state: InvestigationState, component: string | undefined): Undated[] {
  return [...state.control.measures.values()]
    .filter(({ ordered }) => TREATING_MEASURES.has(ordered.body.measure))
    .flatMap((measure) => {
      const where = reach(state, { components: measure.ordered.body.components, component })
      const on = where === undefined ? undefined : dayOf(measure, component)
      return where === undefined || on === undefined
        ? []
        : [{ what: measure.ordered.body.measure, on, where, entry: measure.ordered.id }]
    })
}

/** The day a measure was done at a point: its last proof there, else its completion. A dropped measure was not done. */
function dayOf({ proofs, completed }: Measure, component: string | undefined): IsoDate | undefined {
  const proof = proofs.findLast(({ body }) => component !== undefined && body.component === component)
  if (proof !== undefined) return localDate({ instant: proof.body.at, offset: proof.offset })
  return completed === undefined || completed.body.outcome === 'dropped' ? undefined : completed.body.completedOn
}

function historyAt(state: InvestigationState, component: string | undefined): Undated[] {
  return state.building.history
    .filter(({ body }) => TREATING_EVENTS.has(body.what))
    .flatMap(({ id, body }) => {
      const where = reach(state, { components: body.components, component })
      return where === undefined ? [] : [{ what: body.what, on: body.until ?? body.on, where, entry: id }]
    })
}

function reach(
  state: InvestigationState,
  { components, component }: { components: readonly string[]; component: string | undefined },
): Treatment['where'] | undefined {
  if (component !== undefined && components.includes(component)) return 'this point'
  if (components.length === 0) return 'whole system'
  const plant = components.some((id) => {
    const part = state.building.working.component(id)
    return part !== undefined && !isOutlet(part)
  })
  return plant ? 'whole system' : undefined
}
