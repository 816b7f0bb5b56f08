import { expect, test } from 'vitest'
import type { BodyOf } from '../entry/kinds.ts'
import { checkEntry } from '../rules/check-entry.ts'
import { derive } from '../state/derive.ts'
import { entryMaker } from '../testing/entry-maker.ts'

const { make } = entryMaker('marram-house')
const body = (changes: Partial<BodyOf<'case.recorded'>> = {}): BodyOf<'case.recorded'> => ({
  code: 'MH-01',
  classification: 'probable',
  link: 'not judged',
  isolate: 'not known',
  ...changes,
})
const recorded = make('case.recorded', body())
const exposure = make('exposure.recorded', {
  caseCode: 'MH-01',
  place: 'Room C6',
  kind: 'stay',
  from: '2026-02-01',
  to: '2026-02-10',
})
const state = derive('marram-house', [recorded, exposure])
const pathsOf = (candidate: unknown) => {
  const checked = checkEntry(state, candidate)
  return checked.ok ? [] : checked.issues.map(({ path }) => path)
}

test('[CAS1] a code is used for one case', () => {
  expect(pathsOf(make('case.recorded', body()))).toEqual(['body.code'])
  expect(pathsOf(make('case.recorded', body({ code: 'MH-02' })))).toEqual([])
})

test.each([
  ['Anna Smith', ['body.code']],
  ['smith', ['body.code']],
  ['Anna Smith 3', ['body.code']],
  ['Case 3', []],
  ['MH-07', []],
  ['7', []],
])('[CAS2] a case carries a code, never a name: %s', (code, paths) => {
  expect(pathsOf(make('case.recorded', body({ code })))).toEqual(paths)
})

test('[CAS3] an onset lies in the past', () => {
  expect(pathsOf(make('case.recorded', body({ code: 'MH-02', onsetDate: '2026-03-09' })))).toEqual(['body.onsetDate'])
  expect(pathsOf(make('case.recorded', body({ code: 'MH-02', onsetDate: '2026-03-02' })))).toEqual([])
})

test('[CAS4] an exposure names a recorded case, ends no earlier than it begins, and names a component only if it is described', () => {
  const given = { ...exposure.body, caseCode: 'MH-09', from: '2026-02-10', to: '2026-02-01', component: 'nowhere' }
  expect(pathsOf(make('exposure.recorded', given))).toEqual(['body.caseCode', 'body.to', 'body.component'])
})

test('[CAS5] a case keeps its code while exposures name it', () => {
  const renamed = make('case.recorded', body({ code: 'MH-05' }), { entry: recorded.id, reason: 'typing error' })
  expect(pathsOf(renamed)).toEqual(['body.code'])
  const refined = make('case.recorded', body({ classification: 'confirmed' }), {
    entry: recorded.id,
    reason: 'culture',
  })
  expect(pathsOf(refined)).toEqual([])
})
