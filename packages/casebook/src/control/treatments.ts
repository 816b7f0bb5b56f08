import { isOutlet } from '../building/water-system.ts'
import { localDate } from '../units/local-time.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { daysBetween, type IsoDate } from '@rillmark/science/calendar/iso-date.ts'
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

/** Something done to the water that changes what a sample taken after it can show. */
export interface Treatment {
  readonly what: string
  readonly on: IsoDate
  /** places it was done at; undefined where it was done to the whole system, to plant that feeds it, or nobody said */
  readonly components: ReadonlySet<string> | undefined
  /** id of the entry that says so */
  readonly entry: string
  /** id of the measure or event it belongs to */
  readonly source: string
}

/** Every treatment in the record, the earliest first: measures proved or completed, and events told in the building's history. */
export function treatmentsOf(state: InvestigationState): Treatment[] {
  const history = state.building.history
    .filter(({ body }) => TREATING_EVENTS.has(body.what))
    .map(({ id, body }) => ({
      what: body.what,
      on: body.until ?? body.on,
      components: reach(state, body.components),
      entry: id,
      source: id,
    }))
  const measures = [...state.control.measures.values()]
    .filter(({ ordered }) => TREATING_MEASURES.has(ordered.body.measure))
    .flatMap((measure) => partsOf(state, measure))
  return [...history, ...measures].sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0))
}

/** A treatment as one point sees it. */
export interface TreatmentAt {
  readonly treatment: Treatment
  readonly daysSince: number
  readonly where: 'this point' | 'whole system'
}

/** Every treatment a point had on or before a day, the latest first, each measure or event once. A sample of the same day counts as taken after it. */
export function treatmentsAt(
  treatments: readonly Treatment[],
  { component, date }: { component: string | undefined; date: IsoDate },
): TreatmentAt[] {
  const latest = new Map<string, TreatmentAt>()
  for (const treatment of treatments) {
    const { on, components, source } = treatment
    const here = components === undefined || (component !== undefined && components.has(component))
    if (on > date || !here) continue
    const where = component !== undefined && components?.has(component) === true ? 'this point' : 'whole system'
    latest.delete(source)
    latest.set(source, { treatment, daysSince: daysBetween(on, date), where })
  }
  return [...latest.values()].toReversed()
}

/** Each proof on its day, and the completion. A dropped measure was done where it was proved and nowhere else. */
function partsOf(state: InvestigationState, { ordered, proofs, completed }: Measure): Treatment[] {
  const { measure: what, components } = ordered.body
  const proved = proofs.map(({ id, offset, body }) => ({
    what,
    on: localDate({ instant: body.at, offset }),
    components: reach(state, body.component === undefined ? components : [body.component]),
    entry: id,
    source: ordered.id,
  }))
  if (completed === undefined || completed.body.outcome === 'dropped') return proved
  const on = completed.body.completedOn
  return [...proved, { what, on, components: reach(state, components), entry: completed.id, source: ordered.id }]
}

/** Plant that feeds the building reaches every point, and so does what names no place. */
function reach(state: InvestigationState, components: readonly string[]): ReadonlySet<string> | undefined {
  const plant = components.some((id) => {
    const part = state.building.working.component(id)
    return part !== undefined && !isOutlet(part)
  })
  return components.length === 0 || plant ? undefined : new Set(components)
}
