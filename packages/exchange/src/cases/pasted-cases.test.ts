import { expect, test } from 'vitest'
import { readInSlices, readPastedCases, tooMuch } from './pasted-cases.ts'

test('rows with a head in any order give cases once and every exposure', () => {
  const text =
    'Place\tCode\tFrom\tTo\tOnset\tClassification\tKind\nRoom C6\tMH-01\t2026-01-28\t2026-02-10\t2026-02-11\tConfirmed\tShower\nDining room\tMH-01\t2026-02-01\t\t2026-02-11\tconfirmed\tvisit'
  const read = readPastedCases(text)
  expect(read.issues).toEqual([])
  expect(read.cases).toEqual([
    expect.objectContaining({ code: 'MH-01', onsetDate: '2026-02-11', classification: 'confirmed' }),
  ])
  expect(read.exposures).toEqual([
    { caseCode: 'MH-01', place: 'Room C6', kind: 'shower', from: '2026-01-28', to: '2026-02-10' },
    { caseCode: 'MH-01', place: 'Dining room', kind: 'visit', from: '2026-02-01', to: '2026-02-01' },
  ])
})

test('rows without a head are read in the stated order', () => {
  const read = readPastedCases('C1,2026-02-11,probable,Ward 3,stay,2026-02-01,2026-02-10,window bed')
  expect(read.issues).toEqual([])
  expect(read.exposures[0]).toMatchObject({ caseCode: 'C1', place: 'Ward 3', notes: 'window bed' })
})

test('every fault is named by row and column, and the sound rows are read all the same', () => {
  const read = readPastedCases(
    'code,onset,place,from,to\nAnna Smith,2026-02-11,,,\nC2,11/02/2026,Ward,2026-02-09,2026-02-01\nC3,2026-02-30,,,\nC4,2026-02-11,,,',
  )
  expect(read.issues.map(({ path }) => path)).toEqual(['row 2, code', 'row 3, onset', 'row 3, to', 'row 4, onset'])
  expect(read.cases.map(({ code }) => code)).toEqual(['C4'])
})

test('two rows may not say different things of one case; what one leaves empty the other fills', () => {
  const head = 'code,onset,classification,place,kind,from,to'
  const told = (...rows: string[]) => readPastedCases([head, ...rows].join('\n'))
  const clash = told('C1,2026-02-11,probable,,,,', 'C1,2026-02-12,Probable,,,,')
  expect(clash.issues.map(({ path }) => path)).toEqual(['row 3, onset'])
  const filled = told('C1,,,Ward 3,stay,2026-02-01,2026-02-02', 'C1,2026-02-11,probable,,,,')
  expect(filled.issues).toEqual([])
  expect(filled.cases).toMatchObject([{ code: 'C1', onsetDate: '2026-02-11', classification: 'probable' }])
})

test('a text far too large is refused from its size; too many rows are refused before any is read', () => {
  const rows = (count: number) => `code,onset\n${'C1,2026-02-11\n'.repeat(count)}`
  expect(tooMuch(rows(20_000))).toMatchObject({ received: '20001 lines' })
  expect(tooMuch(rows(5000))).toBeUndefined()
  expect(readPastedCases(rows(5000)).issues).toEqual([])
  expect(readPastedCases(rows(5001)).issues).toMatchObject([{ path: 'rows' }])
})

test('reading in slices gives back between them and says the same in the end', () => {
  const text = `code,onset\n${'C1,2026-02-11\n'.repeat(900)}`
  const reading = readInSlices(text)
  const shares: number[] = []
  let step = reading.next()
  for (; step.done !== true; step = reading.next()) shares.push(step.value)
  expect(shares.map((share) => Math.round(share * 9))).toEqual([2, 4, 6, 8])
  expect(step.value).toEqual(readPastedCases(text))
})

test.each(['', '   ', '\u0000\u0001', '=HYPERLINK("x")\t=1+1'])(
  'nothing useful gives issues or nothing, never a throw: %j',
  (text) => {
    expect(readPastedCases(text).cases).toEqual([])
  },
)
