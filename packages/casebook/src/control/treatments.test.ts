import { beforeEach, expect, test } from 'vitest'
import { buildSystem } from '../building/build-system.ts'
import { marramHouse } from '../building/marram-house.fixture.ts'
import type { Entry } from '../entry/entry.ts'
import type { BodyOf } from '../entry/kinds.ts'
import { derive, extend } from '../state/derive.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import { treatmentsAt, treatmentsOf } from './treatments.ts'

const system = buildSystem(marramHouse)
const [shower = '', other = ''] = system.components.filter(({ kind }) => kind === 'shower').map(({ id }) => id)
const heater = system.components.find(({ kind }) => kind === 'storage-heater')?.id ?? ''
const maker = entryMaker('marram-house')
let state = derive('marram-house', [])

beforeEach(() => {
  state = derive('marram-house', [maker.make('building.described', { source: 'quick description', system })])
})

const add = (...entries: Entry[]): void => {
  state = extend(state, entries)
}
const ordered = (body: Partial<BodyOf<'measure.ordered'>>) => {
  const entry = maker.make('measure.ordered', {
    measure: 'flush',
    stage: 'immediate',
    where: 'riser A',
    components: [shower, other],
    owner: 'Facility',
    ...body,
  })
  add(entry)
  return entry.id
}
const completed = (measure: string, body: Partial<BodyOf<'measure.completed'>> = {}): void =>
  add(maker.make('measure.completed', { measure, completedOn: '2026-03-10', outcome: 'carried out', ...body }))
const at = (date: string, component: string | undefined = shower): string[] =>
  treatmentsAt(treatmentsOf(state), { component, date }).map(
    ({ treatment, daysSince, where }) => `${treatment.what} ${daysSince} ${where}`,
  )

test('[CTL8] a completed flush counts at its outlets, with the days since, and nowhere else', () => {
  completed(ordered({ components: [shower] }))
  expect(at('2026-03-24')).toEqual(['flush 14 this point'])
  expect(at('2026-03-10')).toEqual(['flush 0 this point'])
  expect(at('2026-03-09')).toEqual([])
  expect(at('2026-03-24', other)).toEqual([])
})

test('[CTL8] a proof at the outlet counts even while the measure is not completed; a dropped measure does not', () => {
  const id = ordered({})
  add(
    maker.make('measure.achieved', {
      measure: id,
      component: shower,
      at: '2026-03-05T10:00:00.000Z',
      reached: false,
      by: 'R. Vale',
    }),
  )
  expect(at('2026-03-06')).toEqual(['flush 1 this point'])
  expect(at('2026-03-06', other)).toEqual([])
  completed(id, { outcome: 'dropped', reason: 'no access' })
  expect(at('2026-03-20', other)).toEqual([])
})

test('[CTL8] what names no place, or plant that feeds the building, counts everywhere', () => {
  completed(ordered({ measure: 'shock chlorination', components: [] }))
  completed(ordered({ measure: 'heat disinfection', components: [heater] }), { completedOn: '2026-03-12' })
  expect(at('2026-03-13')).toEqual(['heat disinfection 1 whole system', 'shock chlorination 3 whole system'])
})

test('[CTL8] the history of the building counts too, until its last day; repairs and signs do not', () => {
  add(
    maker.make('history.recorded', {
      on: '2026-02-20',
      until: '2026-02-22',
      what: 'disinfection',
      components: [],
      text: 'by the facility',
    }),
    maker.make('history.recorded', { on: '2026-02-23', what: 'works', components: [], text: 'new pump' }),
  )
  completed(ordered({ measure: 'repair or replace', components: [shower] }))
  expect(at('2026-03-11')).toEqual(['disinfection 17 whole system'])
})
