import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { type DisinfectantContactInput, disinfectantContact } from './disinfectant-contact.ts'

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const contacts: fc.Arbitrary<DisinfectantContactInput> = fc.record({
  residualMgPerL: real(0, 50),
  minutes: real(0, 1000),
  disinfectant: fc.constantFrom('free-chlorine', 'monochloramine'),
  pH: real(5, 9.9),
  temperatureC: real(0, 59),
})

test('only the product of residual and time counts, and the range holds its middle', () => {
  fc.assert(
    fc.property(contacts, (input) => {
      const got = disinfectantContact(input)
      const swapped = disinfectantContact({ ...input, residualMgPerL: input.minutes, minutes: input.residualMgPerL })
      expect(swapped).toEqual(got)
      expect(got.log10Reduction.lower).toBeLessThanOrEqual(got.log10Reduction.central)
      expect(got.log10Reduction.central).toBeLessThanOrEqual(got.log10Reduction.upper)
      const twice = disinfectantContact({ ...input, minutes: 2 * input.minutes })
      expect(twice.log10Reduction.central).toBeCloseTo(2 * got.log10Reduction.central, 9)
    }),
  )
})

test('free chlorine does less at a higher pH and in colder water, and nothing more above 25 °C', () => {
  fc.assert(
    fc.property(contacts, (given) => {
      const input = { ...given, disinfectant: 'free-chlorine' as const }
      const { central } = disinfectantContact(input).ctPerLog10
      expect(disinfectantContact({ ...input, pH: input.pH + 0.1 }).ctPerLog10.central).toBeGreaterThan(central)
      const warmer = disinfectantContact({ ...input, temperatureC: input.temperatureC + 1 }).ctPerLog10.central
      expect(warmer).toBeLessThanOrEqual(central)
      expect(warmer < central).toBe(input.temperatureC < 25)
    }),
  )
})

test('monochloramine is not corrected for pH or temperature, for nothing was published', () => {
  fc.assert(
    fc.property(contacts, contacts, (a, b) => {
      const of = (water: DisinfectantContactInput) => disinfectantContact({ ...water, disinfectant: 'monochloramine' })
      expect(of(a).ctPerLog10).toEqual(of(b).ctPerLog10)
    }),
  )
})

test('no residual or no time does nothing', () => {
  const water = { disinfectant: 'free-chlorine' as const, pH: 7.5, temperatureC: 20 }
  for (const each of [
    { residualMgPerL: 0, minutes: 60 },
    { residualMgPerL: 5, minutes: 0 },
  ]) {
    const got = disinfectantContact({ ...water, ...each })
    expect(got).toMatchObject({ ctMgMinPerL: 0, log10Reduction: { central: 0, lower: 0, upper: 0 } })
  }
})
