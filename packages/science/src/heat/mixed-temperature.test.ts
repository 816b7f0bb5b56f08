import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { runCalculation } from '../catalogue/catalogue.ts'
import { mixedTemperature } from './mixed-temperature.ts'

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const mixes = fc.record({
  hotC: real(0, 100),
  coldC: real(0, 100),
  hotFlowLPerMin: real(0, 50),
  coldFlowLPerMin: real(0.01, 50),
})

test('the mix lies between, does not mind which is called hot, nor the unit of flow', () => {
  fc.assert(
    fc.property(mixes, (input) => {
      const got = mixedTemperature(input)
      const [low, high] = [Math.min(input.hotC, input.coldC), Math.max(input.hotC, input.coldC)]
      for (const each of [got.temperatureC, got.heatBalanceC]) {
        expect(each).toBeGreaterThanOrEqual(low - 1e-9)
        expect(each).toBeLessThanOrEqual(high + 1e-9)
      }
      const swapped = mixedTemperature({
        hotC: input.coldC,
        coldC: input.hotC,
        hotFlowLPerMin: input.coldFlowLPerMin,
        coldFlowLPerMin: input.hotFlowLPerMin,
      })
      expect(swapped.temperatureC).toBeCloseTo(got.temperatureC, 9)
      expect(swapped.heatBalanceC).toBeCloseTo(got.heatBalanceC, 9)
      const gallons = {
        ...input,
        hotFlowLPerMin: input.hotFlowLPerMin / 3.785,
        coldFlowLPerMin: input.coldFlowLPerMin / 3.785,
      }
      expect(mixedTemperature(gallons).temperatureC).toBeCloseTo(got.temperatureC, 9)
    }),
  )
})

test('counting heat, hot water weighs a little less: a few tenths of a degree', () => {
  fc.assert(
    fc.property(mixes, (input) => {
      const { temperatureC, heatBalanceC } = mixedTemperature(input)
      // A litre at 100 °C holds 4 % less per kelvin than one at 0 °C: at most a quarter of the difference, times that.
      expect(Math.abs(temperatureC - heatBalanceC)).toBeLessThan(1.1)
    }),
  )
  const half = mixedTemperature({ hotC: 60, coldC: 10, hotFlowLPerMin: 5, coldFlowLPerMin: 5 })
  expect(half.temperatureC).toBe(35)
  expect(half.temperatureC - half.heatBalanceC).toBeGreaterThan(0.2)
})

test('one flow alone keeps its temperature; none of either is refused', () => {
  const input = { hotC: 60, coldC: 10, hotFlowLPerMin: 0, coldFlowLPerMin: 5 }
  expect(mixedTemperature(input).temperatureC).toBe(10)
  expect(mixedTemperature({ ...input, hotFlowLPerMin: 5, coldFlowLPerMin: 0 }).temperatureC).toBe(60)
  expect(runCalculation({ id: 'mixed-temperature', input: { ...input, coldFlowLPerMin: 0 } })).toEqual({
    issues: [{ path: 'hotFlowLPerMin', expected: 'some flow, hot or cold', received: 'none of either' }],
  })
  expect(() => mixedTemperature({ ...input, coldFlowLPerMin: 0 })).toThrow(RangeError)
})
