import { expect, test } from 'vitest'
import { derive } from '../state/derive.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import { briefView } from './brief-view.ts'

const moment = { nowMs: Date.parse('2026-03-20T12:00:00.000Z'), today: '2026-03-20' }
const { make } = entryMaker('marram-house')
const opened = make('investigation.opened', {
  title: 'Marram House',
  setting: 'long-term care',
  openedOn: '2026-03-02',
  reason: 'Two residents ill.',
})
const aCase = make('case.recorded', {
  code: 'MH-01',
  classification: 'confirmed',
  link: 'not judged',
  isolate: 'asked for',
})
const question = make('note.written', { text: 'Who balanced the return?', about: 'building', purpose: 'open question' })
const settled = make('question.settled', { question: question.id, answer: 'Nobody.' })

test('[BRF1] an empty investigation says what comes first and claims nothing', () => {
  const brief = briefView(derive('marram-house', []), moment)
  expect(brief).toMatchObject({ happened: undefined, known: [], late: [] })
  expect(brief.next.map(({ step }) => step)).toEqual(['cases', 'building'])
})

test('[BRF2] gaps the record shows are listed as unknown, and questions until they are settled', () => {
  const open = briefView(derive('marram-house', [opened, aCase, question]), moment)
  expect(open.happened).toBe('Two residents ill.')
  expect(open.unknown.map(({ words }) => words)).toEqual([
    'Onset of MH-01',
    'Where MH-01 met water',
    'Whether an isolate of MH-01 can be had',
    'No isolate of a case is recorded: no comparison with the building is possible yet',
    'Who balanced the return?',
  ])
  const answered = briefView(derive('marram-house', [opened, aCase, question, settled]), moment)
  expect(answered.unknown.map(({ words }) => words)).not.toContain('Who balanced the return?')
})

test('[BRF3] a measure past its day is late until it is completed', () => {
  const ordered = make('measure.ordered', {
    measure: 'restrict use',
    stage: 'immediate',
    where: 'showers on riser C',
    components: [],
    owner: 'Facility manager',
    dueOn: '2026-03-06',
  })
  const completed = make('measure.completed', {
    measure: ordered.id,
    completedOn: '2026-03-09',
    outcome: 'carried out',
  })
  expect(briefView(derive('marram-house', [ordered]), moment).late).toEqual([
    { words: 'restrict use, showers on riser C: due 2026-03-06, Facility manager', step: 'control', show: ordered.id },
  ])
  expect(briefView(derive('marram-house', [ordered, completed]), moment).late).toEqual([])
})
