import { componentName } from '../building/labels.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { type IsoDate, daysBetween } from '@rillmark/science/calendar/iso-date.ts'
import { type Progress, progressOf } from './measure-progress.ts'
import type { Measure } from './state.ts'
import { capital } from '../units/capital.ts'

export const STAGES = ['immediate', 'remediation', 'long-term'] as const
export type Stage = (typeof STAGES)[number]

export interface MeasureView extends Progress {
  readonly id: string
  readonly measure: Measure
  readonly title: string
  readonly stage: Stage
  readonly state: 'ordered' | 'in hand' | 'proved' | 'late' | 'carried out' | 'partly' | 'dropped'
  readonly daysLate: number
  /** places by the names people use */
  readonly nameOf: (component: string) => string
}

export interface ControlView {
  readonly measures: readonly MeasureView[]
  readonly open: number
  readonly late: number
}

/** What was ordered, who does it by when, what was reached at each place, and what is late. */
export function controlView(state: InvestigationState, today: IsoDate): ControlView {
  const nameOf = (id: string): string => {
    const component = state.building.working.component(id)
    return component === undefined ? id : componentName(component)
  }
  const measures = [...state.control.measures.values()].map((measure) => viewOf({ measure, today, nameOf }))
  const open = measures.filter(({ measure }) => measure.completed === undefined)
  return { measures, open: open.length, late: open.filter(({ daysLate }) => daysLate > 0).length }
}

function viewOf(of: { measure: Measure; today: IsoDate; nameOf: (id: string) => string }): MeasureView {
  const { measure, today, nameOf } = of
  const { body } = measure.ordered
  const progress = progressOf(measure)
  const open = measure.completed === undefined
  const daysLate = open && body.dueOn !== undefined ? Math.max(0, daysBetween(body.dueOn, today)) : 0
  return {
    ...progress,
    id: measure.ordered.id,
    measure,
    title: capital(body.measure === 'other' ? body.where : `${body.measure}, ${body.where}`),
    stage: body.stage,
    state: measure.completed?.body.outcome ?? openState({ measure, progress, daysLate }),
    daysLate,
    nameOf,
  }
}

function openState(of: { measure: Measure; progress: Progress; daysLate: number }): MeasureView['state'] {
  const { measure, progress, daysLate } = of
  if (daysLate > 0) return 'late'
  if (measure.proofs.length === 0) return 'ordered'
  return progress.places.length > 0 && progress.missing.length === 0 ? 'proved' : 'in hand'
}
