import type { Entry } from '../entry/entry.ts'
import type { SampleKind } from '../entry/fields.ts'
import { makeLabel } from '../label/label.ts'
import { derive } from '../state/derive.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import type { ResultValue } from '../units/result-value.ts'

/** A small invented building for tests of findings: two risers, three outlets each, one heater. */
export const { make } = entryMaker('marram-house')

export const labelOf = (number: number): string => makeLabel({ prefix: 'MRH', number }).id

const outlets = ['A', 'B'].flatMap((riser) =>
  [1, 2, 3].map((floor) => ({
    id: `shower-${riser}${floor}`,
    kind: 'shower' as const,
    riser,
    floor,
    room: `${floor}0${riser}`,
    zone: 'north',
  })),
)

export const described: Entry = make('building.described', {
  source: 'file',
  system: {
    format: 'rillmark/water-system@1',
    name: 'two risers',
    supply: { temperatureC: 14, disinfectant: { kind: 'chloramine', residualMgPerL: 1.9 } },
    components: [
      { id: 'entry', kind: 'supply-entry', floor: 0 },
      { id: 'heater', kind: 'storage-heater', floor: 0 },
      ...outlets,
    ],
    pipes: [],
  },
})

export function collected(
  number: number,
  {
    component,
    sampleKind = 'bulk-hot',
    filter = 'none',
  }: { component?: string; sampleKind?: SampleKind; filter?: 'none' | 'after filter' },
): Entry {
  return make('sample.collected', {
    round: 'R1',
    stop: `stop ${component ?? number}`,
    label: labelOf(number),
    sampleKind,
    filter,
    ...(component === undefined ? {} : { component }),
  })
}

export function reported(
  number: number,
  given: ResultValue | { value: ResultValue; method?: 'culture' | 'PCR'; halfLimitSuspected?: boolean },
): Entry {
  const more = 'kind' in given ? { value: given } : given
  return make('result.reported', {
    label: labelOf(number),
    laboratory: 'Q',
    method: 'culture',
    target: 'Legionella',
    status: 'final',
    ...more,
  })
}

export const count = (value: number): ResultValue => ({ kind: 'count', value, unit: 'CFU/L' })
export const below: ResultValue = { kind: 'below', limit: 100, unit: 'CFU/L' }

export function stateOf(...entries: readonly Entry[]): InvestigationState {
  return derive('marram-house', [described, ...entries])
}
