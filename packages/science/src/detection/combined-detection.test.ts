import { expect, test } from 'vitest'
import { detectedByAny, detectedOnAverage } from './combined-detection.ts'
import { detectionProbability } from './detection-probability.ts'

test.each([
  [[], 0],
  [[0], 0],
  [[1, 0], 1],
  [[0.5, 0.5], 0.75],
  [[0.2, 0.3, 0.5], 0.72],
])('looks of chance %j find together with chance %d', (chances, want) => {
  expect(detectedByAny(chances)).toBeCloseTo(want, 14)
})

test('independent looks at one colonised outlet are one look after another', () => {
  const one = detectionProbability({ outlets: 1, colonised: 1, sampled: 1, sensitivity: 0.3 })
  expect(detectedByAny(Array.from({ length: 4 }, () => one))).toBeCloseTo(1 - 0.7 ** 4, 14)
})

test('many tiny chances are not lost', () => {
  expect(detectedByAny(Array.from({ length: 1000 }, () => 1e-18))).toBeCloseTo(1e-15, 27)
})

test('an average lies between its least and its greatest chance, whatever the scale of the weights', () => {
  const ways = [
    { chance: 0.9, weight: 3 },
    { chance: 0.5, weight: 1 },
  ]
  expect(detectedOnAverage(ways)).toBeCloseTo(0.8, 14)
  expect(detectedOnAverage(ways.map(({ chance, weight }) => ({ chance, weight: weight * 1e6 })))).toBeCloseTo(0.8, 14)
  expect(detectedOnAverage([])).toBeUndefined()
  expect(detectedOnAverage([{ chance: 0.4, weight: 0 }])).toBeUndefined()
})

test('what is no chance or no weight is refused', () => {
  expect(() => detectedByAny([1.2])).toThrow(RangeError)
  expect(() => detectedByAny([Number.NaN])).toThrow(RangeError)
  expect(() => detectedOnAverage([{ chance: 0.5, weight: -1 }])).toThrow(RangeError)
})
