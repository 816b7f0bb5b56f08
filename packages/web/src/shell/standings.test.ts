import { buildSystem } from '@rillmark/casebook/building/build-system.ts'
import { DEVICES_TO_SWEEP } from '@rillmark/casebook/building/devices.ts'
import { marramHouse } from '@rillmark/casebook/building/marram-house.fixture.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { derive } from '@rillmark/casebook/state/derive.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { expect, it } from 'vitest'
import { findItems } from './find-items.ts'
import { JOB_STEPS } from './job.ts'
import { STANDING_OF } from './standings.ts'

const { make } = entryMaker('marram-house')
const opened = make('investigation.opened', {
  title: 'Marram House',
  setting: 'hotel',
  openedOn: '2026-03-14',
  reason: 'Two guests ill',
})
const recorded = make('case.recorded', {
  code: 'C1',
  classification: 'probable',
  link: 'not judged',
  isolate: 'not known',
})
const ordered = make('measure.ordered', {
  measure: 'restrict use',
  stage: 'immediate',
  where: 'showers on riser C',
  components: [],
  owner: 'facility',
})
const completed = make('measure.completed', { measure: ordered.id, completedOn: '2026-03-15', outcome: 'carried out' })

it('starts every step at not started', () => {
  const state = derive('marram-house', [])
  expect(JOB_STEPS.map((step) => STANDING_OF[step](state).is)).toEqual(JOB_STEPS.map(() => 'not started'))
})

it('follows the record', () => {
  const state = derive('marram-house', [opened, recorded, ordered])
  expect(STANDING_OF.brief(state)).toEqual({ is: 'in hand' })
  expect(STANDING_OF.cases(state)).toEqual({ is: 'in hand', words: '1 case' })
  expect(STANDING_OF.control(state)).toEqual({ is: 'in hand', words: '1 open' })
  expect(STANDING_OF.control(derive('marram-house', [opened, ordered, completed]))).toEqual({ is: 'done' })
})

it('counts a building as done once it is described and everything that wets air was looked for', () => {
  const described = make('building.described', { source: 'quick description', system: buildSystem(marramHouse) })
  const answers = DEVICES_TO_SWEEP.map(({ id }) => make('device.swept', { device: id, state: 'absent' }))
  const [first] = answers
  const after = (...entries: Entry[]) => STANDING_OF.building(derive('marram-house', entries))
  expect(after(described)).toEqual({ is: 'in hand', words: 'described' })
  expect(after(described, ...(first === undefined ? [] : [first]))).toMatchObject({
    is: 'in hand',
    words: `swept 1 of ${answers.length}`,
  })
  expect(after(described, ...answers)).toEqual({ is: 'done', words: 'swept' })
})

it('finds what has a name, and says which screen shows it', () => {
  const items = findItems(derive('marram-house', [opened, recorded]))
  expect(items.find((item) => item.label === 'C1')).toMatchObject({ hint: 'case', step: 'cases', show: 'C1' })
  expect(items.filter((item) => item.hint === 'go to')).toHaveLength(13)
})
