import { type FloorNames, floorWords } from '@rillmark/casebook/building/floor-words.ts'
import { componentName, kindWord } from '@rillmark/casebook/building/labels.ts'
import type { Component } from '@rillmark/casebook/building/water-system.ts'
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
    ...(state.building.system?.components ?? []).map((component) =>
      componentItem(component, state.building.system?.floors),
    ),
    ...[...state.fieldwork.samples.keys()].map(
      (label): FindItem => ({ id: `sample ${label}`, label, hint: 'sample', step: 'results', show: label }),
    ),
  ]
}

function componentItem(component: Component, floors: FloorNames): FindItem {
  const { id, kind, room, floor, riser } = component
  const where = [
    room !== undefined && `room ${room}`,
    floor !== undefined && floorWords(floors, floor),
    riser !== undefined && `riser ${riser}`,
  ]
  const hint = [kindWord(kind), ...where].filter((part) => part !== false).join(' · ')
  return { id: `component ${id}`, label: componentName(component), hint, step: 'building', show: id }
}
