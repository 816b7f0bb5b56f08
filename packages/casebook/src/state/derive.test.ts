import { expect, test } from 'vitest'
import { checkEntry } from '../rules/check-entry.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import { derive, extend } from './derive.ts'
import { UNCOLLECTED } from './investigation-state.ts'

const { make } = entryMaker('marram-house')
const recorded = make('case.recorded', {
  code: 'C1',
  classification: 'probable',
  link: 'not judged',
  isolate: 'not known',
})
const amended = make(
  'case.recorded',
  { code: 'C1', classification: 'confirmed', link: 'not judged', isolate: 'not known' },
  { entry: recorded.id, reason: 'culture reported' },
)
const withdrawn = make('entry.withdrawn', {}, { entry: amended.id, reason: 'entered in the wrong investigation' })

test('[REC3] an amendment takes the place of what it amends; both versions stay', () => {
  const state = derive('marram-house', [recorded, amended])
  expect(state.cases.cases.get('C1')).toMatchObject({
    id: recorded.id,
    amendments: 1,
    body: { classification: 'confirmed' },
  })
  expect(state.record.versions.get(recorded.id)).toEqual({ first: recorded, amendments: [amended] })
})

test('[REC4] a withdrawn entry counts no more and stays in the record', () => {
  const state = derive('marram-house', [recorded, amended, withdrawn])
  expect(state.cases.cases.size).toBe(0)
  expect(state.record.entries).toEqual([recorded, amended, withdrawn])
})

test('[REC5] extending a state gives what deriving it whole gives', () => {
  const whole = derive('marram-house', [recorded, amended, withdrawn])
  let grown = derive('marram-house', [])
  for (const entry of [recorded, amended, withdrawn]) grown = extend(grown, [entry])
  expect(grown.cases).toEqual(whole.cases)
  expect(grown.record).toEqual(whole.record)
})

test('[REC6] an amendment must name an entry of the same kind that is in the record and stands', () => {
  const state = derive('marram-house', [recorded])
  const stranger = make('case.recorded', recorded.body, { entry: crypto.randomUUID(), reason: 'x' })
  expect(checkEntry(state, stranger)).toMatchObject({ ok: false, issues: [{ path: 'corrects.entry' }] })
  const otherKind = make('note.written', { text: 'x', purpose: 'note' }, { entry: recorded.id, reason: 'x' })
  expect(checkEntry(state, otherKind)).toMatchObject({ ok: false, issues: [{ path: 'kind' }] })
  const late = make('case.recorded', recorded.body, { entry: recorded.id, reason: 'x' })
  const gone = derive('marram-house', [recorded, amended, withdrawn])
  expect(checkEntry(gone, late)).toMatchObject({ ok: false, issues: [{ path: 'corrects.entry' }] })
  expect(checkEntry(state, make('entry.withdrawn', {}))).toMatchObject({ ok: false, issues: [{ path: 'corrects' }] })
})

test('[REC7] every kind but withdrawal is collected by the step that owns it', () => {
  expect(UNCOLLECTED).toEqual(['entry.withdrawn'])
})
