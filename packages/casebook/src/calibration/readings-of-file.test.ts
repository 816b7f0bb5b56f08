import { expect, test } from 'vitest'
import { FIELD_READINGS_FORMAT, fieldReadingsSchema } from './field-reading.ts'
import { readingsOfFile } from './readings-of-file.ts'

const place = { component: 'basin-1', circuit: 'hot' } as const
const file = (readings: unknown[]) => fieldReadingsSchema.safeParse({ format: FIELD_READINGS_FORMAT, readings })

test('[CLB12] a file of readings gives each its place, water, value or limit, seconds, clock time and standard deviation', () => {
  const parsed = file([
    { ...place, temperatureC: 51.5, seconds: 60, at: '07:45' },
    { ...place, residualMgPerL: { below: 0.05 } },
    { ...place, temperatureC: 40, sd: 2 },
  ])
  if (!parsed.success) throw parsed.error
  expect(readingsOfFile(parsed.data)).toEqual([
    { ...place, id: '1', quantity: 'temperature', value: 51.5, seconds: 60, clockMinute: 465, sd: 0.5 },
    { ...place, id: '2', quantity: 'residual', value: 0.05, beyond: 'below', sd: 0.05 },
    { ...place, id: '3', quantity: 'temperature', value: 40, sd: 2 },
  ])
})

test.each([
  [{ ...place }],
  [{ ...place, temperatureC: 50, residualMgPerL: 1 }],
  [{ ...place, temperatureC: 300 }],
  [{ ...place, temperatureC: 50, at: '25:00' }],
  [{ ...place, circuit: 'lukewarm', temperatureC: 50 }],
  [{ ...place, temperatureC: 50, sd: 0 }],
])('[CLB12] %j is refused', (row) => {
  expect(file([row]).success).toBe(false)
})
