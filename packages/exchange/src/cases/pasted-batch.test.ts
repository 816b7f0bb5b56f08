import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { derive } from '@rillmark/casebook/state/derive.ts'
import { expect, test } from 'vitest'
import { pastedBatch, pastedWords } from './pasted-batch.ts'
import { readPastedCases } from './pasted-cases.ts'

const JUDGED = { link: 'not judged', isolate: 'not known' } as const
const { make } = entryMaker('marram-house')
const recorded = derive('marram-house', [
  make('case.recorded', { code: 'MH-01', onsetDate: '2026-02-11', classification: 'confirmed', ...JUDGED }),
  make('exposure.recorded', {
    caseCode: 'MH-01',
    place: 'Room C6',
    kind: 'stay',
    from: '2026-02-01',
    to: '2026-02-08',
  }),
])

const paste = (...rows: string[]) =>
  pastedBatch(readPastedCases(['code,onset,classification,place,kind,from,to', ...rows].join('\n')), recorded.cases)

test('cases come before the exposures that name them', () => {
  const batch = paste('MH-02,2026-02-12,probable,Room C7,stay,2026-02-01,2026-02-09')
  expect(batch.proposals.map(({ kind }) => kind)).toEqual(['case.recorded', 'exposure.recorded'])
  expect(pastedWords(batch)).toEqual([])
})

test('the same exposure twice is taken once, among the rows and against the record, and that is said', () => {
  const batch = paste(
    'MH-01,2026-02-11,confirmed,room c6,stay,2026-02-01,2026-02-08',
    'MH-02,2026-02-12,probable,Room C7,stay,2026-02-01,2026-02-09',
    'MH-02,2026-02-12,probable,Room C7 ,stay,2026-02-01,2026-02-09',
    'MH-02,2026-02-12,probable,Room C7,shower,2026-02-01,2026-02-09',
  )
  expect(batch.exposures).toBe(2)
  expect(pastedWords(batch)).toEqual([
    'In the record already, left out: 1 exposure.',
    'Twice in the rows, taken once: 1 exposure.',
    'In the record already, left as there: 1 case.',
  ])
})

test('a case that stands otherwise in the record is named, not left out without a word', () => {
  const batch = paste('MH-01,2026-02-14,confirmed,,,,')
  expect(batch.proposals).toEqual([])
  expect(pastedWords(batch)).toContain(
    'MH-01: another onset or classification stands in the record; amend it there if the rows are right.',
  )
})
