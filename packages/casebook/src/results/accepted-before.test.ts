import { expect, test } from 'vitest'
import { derive } from '../state/derive.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import { acceptedBefore } from './accepted-before.ts'

const { make } = entryMaker('marram-house')
const imported = make('results.imported', {
  fileName: 'QWL-0311.csv',
  sha256: 'a'.repeat(64),
  laboratory: 'Quillhaven Water Laboratory',
  mapping: { columns: {}, decimal: 'point', dateOrder: 'year-month-day' },
  rows: 12,
  accepted: 10,
  setAside: [
    { row: 3, reason: 'not ours' },
    { row: 9, reason: 'not ours' },
  ],
})
const { results } = derive('marram-house', [imported])

test('[RES23] the same bytes are known again, with the day and the person; other bytes are not', () => {
  expect(acceptedBefore(results, 'a'.repeat(64))).toBe(
    'This file is in the record already: QWL-0311.csv, accepted on 2026-03-02 08:01 by R. Vale, 10 of 12 rows, 2 set aside or without anything new.',
  )
  expect(acceptedBefore(results, 'b'.repeat(64))).toBeUndefined()
})
