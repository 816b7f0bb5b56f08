import { expect, test } from 'vitest'
import { detectionLimitOf } from './detection-limit.ts'
import { plateCount } from './plate-count.ts'

test('one colony on the plate is the limit of what was plated', () => {
  const one = plateCount({ plates: [{ colonies: 1, platedMl: 0.1, concentrationFactor: 100 }], level: 0.95 })
  expect(detectionLimitOf(0.1 * 100) * 1000).toBe(one.cfuPerL)
  expect(one.detectionLimitCfuPerL).toBe(one.cfuPerL)
})

test('nothing examined shows nothing', () => {
  expect(() => detectionLimitOf(0)).toThrow(RangeError)
  expect(() => detectionLimitOf(Number.NaN)).toThrow(RangeError)
})
