import { exposureInput } from '@rillmark/science/incubation/exposure-fields.ts'
import { expect, test } from 'vitest'
import { linesOfOnsets, onsetsOfLines } from './onset-lines.ts'

const LINES = [
  '2026-03-08',
  '2026-03-09T14:00',
  '2026-03-10 to 2026-03-12',
  '2026-03-11 there 2026-03-01 to 2026-03-05, 2026-03-07 to 2026-03-07',
  '2026-03-11 to 2026-03-13 there 2026-03-01 to 2026-03-05',
].join('\n')

test('lines become onsets and the same lines again', () => {
  expect(linesOfOnsets(onsetsOfLines(LINES))).toBe(LINES)
  expect(onsetsOfLines(LINES)[3]).toEqual({
    from: '2026-03-11',
    to: '',
    present: [
      { from: '2026-03-01', to: '2026-03-05' },
      { from: '2026-03-07', to: '2026-03-07' },
    ],
  })
})

test('a pasted column, blank lines and a second column are read; a stay of one day needs no second end', () => {
  expect(linesOfOnsets(onsetsOfLines('2026-03-08\r\n\r\n 2026-03-09\t2026-03-10 \n'))).toBe(
    '2026-03-08\n2026-03-09 to 2026-03-10',
  )
  expect(linesOfOnsets(onsetsOfLines('2026-03-08 There 2026-03-01'))).toBe('2026-03-08 there 2026-03-01 to 2026-03-01')
})

test('what is no date stays as typed, so that the check can name it', () => {
  expect(onsetsOfLines('tuesday')).toEqual([{ from: 'tuesday', to: '', present: [] }])
  expect(exposureInput.safeParse({ onsets: [{ from: 'tuesday' }] }).success).toBe(false)
})
