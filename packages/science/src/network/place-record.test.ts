import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { PlaceRecord } from './place-record.ts'

const stretch = fc.record({
  minutes: fc.integer({ min: 1, max: 60 }),
  water: fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 5, maxLength: 5 }),
})

test('means are weighted by minutes, and extremes are of all that was there', () => {
  fc.assert(
    fc.property(fc.array(stretch, { minLength: 1, maxLength: 30 }), (stretches) => {
      const record = new PlaceRecord(2)
      let end = 0
      for (const { minutes, water } of stretches) {
        end += minutes
        const row = Float64Array.from(water)
        record.add(1, Float64Array.of(minutes, end, row[1] ?? 0, 0), row, row)
      }
      const { temperatureC } = record.dayOf(1)
      const values = stretches.map(({ water }) => water[1] ?? 0)
      const sum = stretches.reduce((total, { minutes, water }) => total + minutes * (water[1] ?? 0), 0)
      expect(temperatureC.mean).toBeCloseTo(sum / end, 9)
      expect(temperatureC.min).toBe(Math.min(...values))
      expect(temperatureC.max).toBe(Math.max(...values))
    }),
  )
})

test('hours between 25 and 45 °C count the part of a stretch that crosses them', () => {
  const record = new PlaceRecord(1)
  const water = Float64Array.of(0, 35, 0, 0, 0)
  record.add(0, Float64Array.of(60, 60, 15, 0), water, water)
  expect(record.dayOf(0).hoursInGrowthBand).toBeCloseTo(24 * 0.5, 9)
})

test('curves hold in each slot the mean of what was there', () => {
  const record = new PlaceRecord(1, 24)
  const [warm, cold] = [Float64Array.of(0, 40, 0, 0, 0), Float64Array.of(0, 10, 0, 0, 0)]
  record.add(0, Float64Array.of(90, 90, 40, 0), warm, warm)
  record.add(0, Float64Array.of(30, 120, 10, 0), cold, cold)
  expect([...(record.curves?.of.temperatureC.subarray(0, 2) ?? [])]).toEqual([40, 25])
})
