import { describe, expect, test } from 'vitest'
import type { Entry } from '../entry/entry.ts'
import { HEATER, fieldDesk } from '../fieldwork/visit.fixture.ts'
import { NEGATIVE, OVERGROWN, roundWriter } from '../follow-up/follow-up.fixture.ts'
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

test('[BRF6] a stop that was not possible is counted beside the stops done', () => {
  const desk = fieldDesk()
  desk.write('stop.started', HEATER)
  desk.write('stop.finished', { ...HEATER, outcome: 'not possible', reason: 'locked' })
  const { known } = briefView(desk.state, moment)
  expect(known.map(({ words }) => words)).toContain(
    'Round R1 (initial): 0 of 3 stops done, 1 not possible, 0 samples taken',
  )
})

describe('[BRF7] follow-up', () => {
  const { adopted, sample, result, round, started } = roundWriter()
  const next = (entries: readonly Entry[], today: string) => {
    const brief = briefView(derive('marram-house', entries), { nowMs: Date.parse(`${today}T12:00:00Z`), today })
    return { next: brief.next.map(({ words }) => words), late: brief.late.map(({ words }) => words) }
  }

  // us-cdc: every two weeks for three months, see the follow-up rules
  test('the next round is named until it is sampled, and is late after its last day', () => {
    const begun = [started('2026-03-01')]
    expect(next(begun, '2026-03-03').next).toContain('Plan follow-up round 1, due on 2026-03-15')
    const planned = [...begun, adopted('R2')]
    expect(next(planned, '2026-03-16').next).toContainEqual(
      expect.stringMatching(/^Sample follow-up round 1 as R2, due since 2026-03-15/),
    )
    expect(next(planned, '2026-04-20').late).toContainEqual(
      expect.stringMatching(/^Follow-up round 1: at the latest on/),
    )
    const sampled = [...begun, ...round('2026-03-15', { code: 'R2', value: NEGATIVE })]
    expect(next(sampled, '2026-03-20').next.filter((words) => words.includes('follow-up round'))).toEqual([
      'Plan follow-up round 2, due on 2026-03-29',
    ])
  })

  test('what could not be read is asked for until it was taken again at its point', () => {
    const unread = [
      adopted('R1', 'initial'),
      sample({ date: '2026-03-02', round: 'R1', label: 'L-1', component: 'shower-1' }),
      result('L-1', OVERGROWN),
    ]
    const again = sample({ date: '2026-03-12', round: 'R2', label: 'L-2', component: 'shower-1' })
    const elsewhere = sample({ date: '2026-03-12', round: 'R2', label: 'L-3', component: 'shower-2' })
    const asked = (...more: Entry[]) =>
      next([...unread, ...more], '2026-03-14').next.filter((words) => words.startsWith('Sample again'))
    expect(asked()).toHaveLength(1)
    expect(asked(elsewhere)).toHaveLength(1)
    expect(asked(again)).toEqual([])
    expect(asked(again, result('L-2', OVERGROWN))).toEqual(['Sample again: 1 result can’t be read'])
  })
})
