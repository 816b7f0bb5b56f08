import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { runCalculation } from '../catalogue/catalogue.ts'
import { type ShockDoseInput, shockDose } from './shock-dose.ts'

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const amount = fc.double({ min: 0.001, max: 1000, noNaN: true })
const solution = fc.record({
  kind: fc.constant('sodium-hypochlorite' as const),
  availableChlorinePercent: fc.double({ min: 0.1, max: 100, noNaN: true }),
  densityKgPerL: fc.double({ min: 0.5, max: 2, noNaN: true }),
})
const inputs: fc.Arbitrary<ShockDoseInput> = fc.record({
  waterVolumeL: amount,
  targetMgPerL: amount,
  demandMgPerL: amount,
  product: solution,
})

test('the chlorine in the product is the chlorine the water needs', () => {
  fc.assert(
    fc.property(inputs, (input) => {
      const { litres = 0, chlorineKilograms } = shockDose(input)
      const { densityKgPerL = 0, availableChlorinePercent } = input.product
      expect((litres * densityKgPerL * availableChlorinePercent) / 100 / chlorineKilograms).toBeCloseTo(1, 12)
      expect((chlorineKilograms * 1e6) / input.waterVolumeL / (input.targetMgPerL + input.demandMgPerL)).toBeCloseTo(
        1,
        12,
      )
    }),
  )
})

test('a solid is weighed, a solution measured', () => {
  const water = { waterVolumeL: 1000, targetMgPerL: 50, demandMgPerL: 0 }
  const solid = shockDose({ ...water, product: { kind: 'calcium-hypochlorite', availableChlorinePercent: 65 } })
  expect(Object.keys(solid)).toEqual(['chlorineKilograms', 'kilograms'])
  const product = { kind: 'sodium-hypochlorite' as const, availableChlorinePercent: 10 }
  expect(() => shockDose({ ...water, product })).toThrow(RangeError)
})

test('a density in another unit, which would change the dose a thousandfold, is refused at its field', () => {
  const product = { kind: 'sodium-hypochlorite', availableChlorinePercent: 10 }
  for (const densityKgPerL of [1210, 0.00121]) {
    const input = { waterVolumeL: 1000, targetMgPerL: 50, product: { ...product, densityKgPerL } }
    expect(runCalculation({ id: 'shock-dose', input })).toMatchObject({ issues: [{ path: 'product.densityKgPerL' }] })
  }
})

test('a strength no such product has is answered with a caution that comes first', () => {
  const first = (kind: string, availableChlorinePercent: number) => {
    const product = { kind, availableChlorinePercent, densityKgPerL: 1.2 }
    const answer = runCalculation({ id: 'shock-dose', input: { waterVolumeL: 1000, targetMgPerL: 50, product } })
    return 'cautions' in answer ? answer.cautions[0] : answer.issues
  }
  expect(first('calcium-hypochlorite', 0.65)).toContain('0.65 % available chlorine is unusual')
  expect(first('sodium-hypochlorite', 65)).toContain('65 % available chlorine is unusual')
  expect(first('calcium-hypochlorite', 65)).not.toContain('unusual')
  expect(first('sodium-hypochlorite', 12.5)).not.toContain('unusual')
})

test('pounds and gallons give the same dose as kilograms and litres', () => {
  fc.assert(
    fc.property(inputs, real(0.1, 10), (input, perUnit) => {
      // Water in another unit of volume gives product in that unit.
      const other = shockDose({ ...input, waterVolumeL: input.waterVolumeL / perUnit })
      expect(((other.litres ?? 0) * perUnit) / (shockDose(input).litres ?? 0)).toBeCloseTo(1, 12)
    }),
  )
})
