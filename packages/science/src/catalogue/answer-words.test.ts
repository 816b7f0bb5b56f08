import { expect, test } from 'vitest'
import { inWords, limitWords, P_VALUES, withSmallestPInWords } from './answer-words.ts'
import { calculations, runCalculation } from './catalogue.ts'
import { fieldRows } from './field-rows.ts'

test('p values too small for a number are said to be, wherever they stand; nothing else changes', () => {
  const answer = { p: 0, a: { midP: 1e-310, chiSquared: 0, none: [] }, rows: [{ fisherTwoSided: 0, b: 0 }], c: [[0]] }
  expect(withSmallestPInWords(answer)).toEqual({
    p: 'less than 1e-300',
    a: { midP: 'less than 1e-300', chiSquared: 0, none: [] },
    rows: [{ fisherTwoSided: 'less than 1e-300', b: 0 }],
    c: [[0]],
  })
  expect(inWords({ p: 1e-299, pH: 0 })).toEqual({ p: 1e-299, pH: 0 })
  expect(answer.p).toBe(0)
})

test('every p value of the catalogue is known by its name; only shares asked for, never so small, share it', () => {
  const rows = calculations.flatMap(({ output }) => fieldRows(output))
  const named = rows.filter(({ path }) => P_VALUES.has(path.split('.').at(-1) ?? ''))
  const known = named.filter(({ path }) => !path.endsWith('quantiles[].p'))
  expect(runCalculation({ id: 'censored-summary', input: { values: [1, 2, 3], quantiles: [1e-301] } })).toHaveProperty(
    'issues',
  )
  expect(known.length).toBeGreaterThan(5)
  expect(known).toEqual(rows.filter(({ description }) => description.startsWith('p value')))
})

test.each([
  [{ lower: 1, upper: 2 }, '1 to 2'],
  [{ lower: 1 }, 'from 1, no finite upper limit'],
  [{ upper: 2 }, 'up to 2, no finite lower limit'],
  [{}, 'no finite limit on either side'],
])('%j reads %s', (limits, want) => {
  expect(limitWords(limits, String)).toBe(want)
})
