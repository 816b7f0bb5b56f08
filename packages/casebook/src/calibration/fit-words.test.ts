import { expect, test } from 'vitest'
import { METRIC_UNITS, US_UNITS } from '../units/display-units.ts'
import type { Calibration } from './calibration.ts'
import { fittedWords, fitVerdict, rangedWords, readingPlace } from './fit-words.ts'
import { threeTaps } from './small-buildings.fixture.ts'

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

test('[CLB6] the verdict names a finding, else says how many readings nothing explains, and claims no more', () => {
  const none = { findings: [], unexplained: [], inputs: [], tried: [] } as unknown as Calibration
  expect(fitVerdict(none)).toContain('agree with the building as described')
  expect(
    fitVerdict({ ...none, unexplained: ['1', '2'], tried: [{ id: 'x', kind: 'stopped loop', words: 'x', score: 1 }] }),
  ).toBe('2 readings are not explained, and none of the 1 reasons tried explains it.')
})
