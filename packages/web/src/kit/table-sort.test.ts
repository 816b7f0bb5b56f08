import { describe, expect, it } from 'vitest'
import { sorted } from './table-sort.ts'

const columns = [
  { id: 'place', sort: (row: { place: string; count?: number }) => row.place },
  { id: 'count', sort: (row: { place: string; count?: number }) => row.count },
]
const rows = [{ place: '10 basin', count: 3 }, { place: '2 shower' }, { place: '2 bath', count: 12 }]

describe('sorting a table', () => {
  it('reads numbers inside names', () => {
    expect(sorted(rows, { columns, sort: { column: 'place', descending: false } }).map((row) => row.place)).toEqual([
      '2 bath',
      '2 shower',
      '10 basin',
    ])
  })

  it.each([true, false])('keeps empty values last (descending %s)', (descending) => {
    expect(sorted(rows, { columns, sort: { column: 'count', descending } }).at(-1)).toEqual({ place: '2 shower' })
  })

  it('leaves the rows alone when nothing is asked', () => {
    expect(sorted(rows, { columns, sort: undefined })).toBe(rows)
  })
})
