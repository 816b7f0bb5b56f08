import { findCalculation } from '@rillmark/science/catalogue/catalogue.ts'
import { expect, test } from 'vitest'
import { linesOfReadings, readingsOfLines } from './reading-lines.ts'

const values = (text: string): unknown[] => {
  const { drafts } = readingsOfLines(text)
  return (drafts['values'] as readonly string[]).map((json): unknown => JSON.parse(json))
}

test.each([
  ['20', 20],
  ['  < 10 ', { below: 10 }],
  ['<=10', { below: 10 }],
  ['>300', { above: 300 }],
  ['≥ 300', { above: 300 }],
  ['30-40', { between: [30, 40] }],
  ['30 – 40', { between: [30, 40] }],
  ['30 to 40', { between: [30, 40] }],
  ['4,5', 4.5],
  ['0,120', 0.12],
  ['1 200', 1200],
  ["<1'200", { below: 1200 }],
  ['1 000 - 3 000', { between: [1000, 3000] }],
  ['1.2·10³', 1200],
  ['1e-3', 0.001],
  ['1e-3-2e-3', { between: [0.001, 0.002] }],
])('the line %j is one reading', (line, value) => {
  expect(values(line)).toEqual([value])
})

test('what can be read in two ways or not at all is named by its line, and nothing is calculated from the rest', () => {
  expect(readingsOfLines('CFU/L\n20\n\n1,200\n<\n')).toEqual({
    drafts: { values: [] },
    problems: [
      'Line 1: “CFU/L” is no reading such as 20, <10, >300 or 30-40.',
      'Line 4: “1,200” can be 1200 or 1.2: leave out marks between thousands.',
      'Line 5: “<” is no reading such as 20, <10, >300 or 30-40.',
    ],
    summary: '1 read, 0 of them below, above or between limits',
  })
})

test('lines become readings and the same lines again', () => {
  const lines = '20\n<10\n>300\n30-40\n4.5\n0.001'
  const { drafts, summary } = readingsOfLines(lines)
  expect(linesOfReadings(drafts['values'] as readonly string[])).toBe(lines)
  expect(summary).toBe('6 read, 3 of them below, above or between limits')
  expect(linesOfReadings([''])).toBe('')
})

test('none and reversed limits are left to the check of the calculation', () => {
  const input = findCalculation('censored-summary')?.input
  expect(input?.safeParse({ values: values('20\n<10\n30-40') }).success).toBe(true)
  expect(input?.safeParse({ values: values('0') }).success).toBe(false)
  expect(input?.safeParse({ values: values('40-30') }).success).toBe(false)
})
