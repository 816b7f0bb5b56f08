import { expect, test } from 'vitest'
import { FAHRENHEIT, KG_PER_POUND, LITRES_PER_US_GALLON, METRES_PER_FOOT, MM_PER_INCH } from './definitions.ts'

// Factors as NIST SP 811 (2008), appendix B.8, prints them, to its digits (memory): what was rounded there is not exact here.
test.each([
  ['inch', MM_PER_INCH / 10, 2.54, 'exact'],
  ['foot', METRES_PER_FOOT, 0.3048, 'exact'],
  ['pound (avoirdupois)', KG_PER_POUND, 0.4535924, 'rounded to seven digits'],
  ['gallon (U.S.), in cubic metres', LITRES_PER_US_GALLON / 1000, 0.003785412, 'rounded to seven digits'],
] as const)('the %s', (_, mine, printed, how) => {
  expect(how === 'exact' ? mine : Number(mine.toPrecision(7))).toBe(printed)
})

// A relation between the definitions: 231 cubic inches make the gallon, 12 inches the foot (computed).
test('the gallon and the foot follow from the inch', () => {
  expect((231 * MM_PER_INCH ** 3) / 1e6).toBeCloseTo(LITRES_PER_US_GALLON, 14)
  expect((12 * MM_PER_INCH) / 1000).toBeCloseTo(METRES_PER_FOOT, 15)
})

// The scales meet at −40, water freezes at 32 °F and boils at 212 °F: the scale's fixed points (memory).
test.each([
  [-40, -40],
  [0, 32],
  [100, 212],
])('%d °C is %d °F', (c, f) => expect(FAHRENHEIT.degreesPerC * c + FAHRENHEIT.atZeroC).toBe(f))
