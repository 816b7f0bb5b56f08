import { expect, test } from 'vitest'
import { checkEntry } from '../rules/check-entry.ts'
import { derive } from '../state/derive.ts'
import { entryMaker } from '../testing/entry-maker.ts'

const { make } = entryMaker('marram-house')
const opening = { title: 'Marram House', setting: 'long-term care', openedOn: '2026-03-02', reason: 'x' } as const
const opened = make('investigation.opened', opening)
const note = make('note.written', { text: 'Keys at reception', purpose: 'note' })

test('[BRF4] an investigation is opened once; later changes are amendments', () => {
  const state = derive('marram-house', [opened])
  expect(checkEntry(state, make('investigation.opened', opening)).ok).toBe(false)
  const amended = make(
    'investigation.opened',
    { ...opening, title: 'Marram House, east' },
    { entry: opened.id, reason: 'name' },
  )
  expect(checkEntry(state, amended).ok).toBe(true)
})

test('[BRF5] only an open question is settled, and once', () => {
  const question = make('note.written', { text: 'Which pump?', purpose: 'open question' })
  const settle = (id: string) => make('question.settled', { question: id, answer: 'The old one.' })
  const state = derive('marram-house', [note, question])
  expect(checkEntry(state, settle(note.id)).ok).toBe(false)
  const answered = settle(question.id)
  expect(checkEntry(state, answered).ok).toBe(true)
  expect(checkEntry(derive('marram-house', [note, question, answered]), settle(question.id)).ok).toBe(false)
})
