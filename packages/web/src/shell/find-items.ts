import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import { JOB_STEPS, PLACE_WORDS, type Place } from './job.ts'

/** One thing that can be gone to by name. `show` becomes the screen's ?show= and says what to select there. */
export interface FindItem {
  readonly id: string
  readonly label: string
  readonly hint: string
  readonly step: Place
  readonly show?: string | undefined
}

/** Everything in an investigation that has a name. */
export function findItems(state: InvestigationState): readonly FindItem[] {
  const places: readonly Place[] = [...JOB_STEPS, 'record', 'calculators']
  return [
    ...places.map((step): FindItem => ({ id: `step ${step}`, label: PLACE_WORDS[step], hint: 'go to', step })),
    ...[...state.cases.cases.keys()].map(
      (code): FindItem => ({ id: `case ${code}`, label: code, hint: 'case', step: 'cases', show: code }),
    ),
    ...(state.building.system?.components ?? []).map(componentItem),
    ...[...state.fieldwork.samples.keys()].map(
      (label): FindItem => ({ id: `sample ${label}`, label, hint: 'sample', step: 'results', show: label }),
    ),
  ]
}

function componentItem(component: {
  id: string
  kind: string
  floor?: number | undefined
  riser?: string | undefined
  room?: string | undefined
}): FindItem {
  const where = [
    component.room !== undefined && `room ${component.room}`,
    component.floor !== undefined && `floor ${component.floor}`,
    component.riser !== undefined && `riser ${component.riser}`,
  ].filter((part) => part !== false)
  return {
    id: `component ${component.id}`,
    label: component.id,
    hint: [component.kind, ...where].join(' · '),
    step: 'building',
    show: component.id,
  }
}
