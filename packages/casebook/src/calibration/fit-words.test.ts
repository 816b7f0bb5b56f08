import { expect, test } from 'vitest'
import { METRIC_UNITS, US_UNITS } from '../units/display-units.ts'
import type { Calibration } from './calibration.ts'
import { fittedWords, fitVerdict, rangedWords, readingPlace } from './fit-words.ts'
import { everyInput } from './inputs.ts'
import { threeRisers, threeTaps } from './small-buildings.fixture.ts'

test('fitted figures are told in the units of the reader, differences of temperature without a zero of their own', () => {
  expect(fittedWords(57.234, { unit: '°C', units: METRIC_UNITS })).toBe('57.2 °C')
  expect(fittedWords(0.8512, { unit: 'times', units: US_UNITS })).toBe('0.851 times')
  expect(fittedWords(5, { unit: 'K', units: US_UNITS })).toMatch(/^9 /)
  const range = { lower: 55, upper: 60 }
  expect(rangedWords({ value: 57.5, range }, { unit: '°C', units: METRIC_UNITS })).toBe('57.5 °C (55 to 60)')
})

test('a reading is named by its place, its water and when', () => {
  const reading = { id: '1', circuit: 'hot', quantity: 'temperature', value: 50, sd: 1 } as const
  expect(readingPlace(threeTaps, { ...reading, component: 'basin-tap-a101', seconds: 60 })).toBe(
    '101 basin tap, hot after 60 s',
  )
  expect(readingPlace(threeTaps, { ...reading, component: 'gone', seconds: 0 })).toBe('gone, hot at once')
})

const NONE = { findings: [], unexplained: [], inputs: [], tried: [] } as unknown as Calibration
const TRIED = { id: 'x', kind: 'stopped loop', words: 'It stands still.', score: 1 } as const

test('[CLB6] the verdict names a finding, else says how many readings nothing explains, and claims no more', () => {
  expect(fitVerdict(NONE)).toContain('agree with the building as described')
  expect(fitVerdict({ ...NONE, unexplained: ['1', '2'], tried: [TRIED] })).toBe(
    'Something is not as described, or was misread: 2 readings are not explained. None of 1 reason tried explains it.',
  )
  const found = { ...TRIED, parts: [], explains: [], orElse: [] }
  expect(fitVerdict({ ...NONE, findings: [found] })).toBe('Something is not as described: It stands still.')
  expect(fitVerdict({ ...NONE, findings: [found], unexplained: ['1'] })).toBe(
    'Something is not as described: It stands still. Even so, one reading is not explained.',
  )
})

test('[CLB20] an input that had to go further than is likely is named, with what to look for', () => {
  const range = { lower: 0, upper: 9 }
  const input = { unit: 'times', parts: [], before: { value: 1, range }, sdRatio: 1, strained: true }
  const verdict = (id: string, value: number): string =>
    fitVerdict({ ...NONE, inputs: [{ ...input, id, words: 'Heat lost', after: { value, range } }], tried: [TRIED] })
  expect(verdict('hotLossFactor', 2.6)).toBe(
    'All readings are explained, but something may not be as described. “Heat lost” had to go up further than is likely: look for insulation that is missing, wet or thinner than described. None of 1 reason tried explains it better.',
  )
  expect(verdict('hotLossFactor', 0.3)).toContain('“Heat lost” had to go down further than is likely: look for more')
  // every input there can be has something to look for
  for (const { id } of everyInput(threeRisers)) expect(verdict(id, 2)).toContain(': look for ')
})
