import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { METRIC_UNITS, US_UNITS } from './display-units.ts'
import {
  type OtherUnit,
  RECORD_UNITS,
  decimalsOf,
  fromOtherUnit,
  inOtherUnit,
  inOtherUnitAsGiven,
  isOtherUnit,
  isRecordUnit,
  otherUnitOf,
  plainText,
  preferredUnit,
} from './scales.ts'

const OTHERS = RECORD_UNITS.map(otherUnitOf)
const readBack = (text: string): { value: number; decimals: number } => ({
  value: Number(text.replace('−', '-')),
  decimals: text.split('.')[1]?.length ?? 0,
})

describe('units beside those of the record', () => {
  // By definition (NIST SP 811, 2008, appendix B, memory; the products computed by hand): 1 US gal = 3.785411784 L, 1 in = 25.4 mm,
  // 1 ft = 0.3048 m, 1 lb = 0.45359237 kg, °C = (°F − 32)/1.8; a difference of 18 °F is one of 10 K.
  it.each<[number, OtherUnit, number]>([
    [60, '°F', 140],
    [-40, '°F', -40],
    [44.6, '°F', 112.28],
    [10, '°F difference', 18],
    [0, '°F difference', 0],
    [378.5411784, 'US gal', 100],
    [9.46352946, 'US gal/min', 2.5],
    [13.843, 'in', 0.545],
    [30.48, 'ft', 100],
    [0.3048, 'ft/s', 1],
    [45.359237, 'lb', 100],
  ])('[UNI5] %d in %s is %d', (record, unit, want) => {
    expect(inOtherUnit(record, unit)).toBeCloseTo(want, 10)
  })

  it.each<[string, OtherUnit, number]>([
    ['140', '°F', 60],
    ['141', '°F', 60.56],
    ['112.3', '°F', 44.611],
    ['-40', '°F', -40],
    ['18', '°F difference', 10],
    ['0.545', 'in', 13.843],
    ['1', 'in', 25.4],
    ['1', 'ft', 0.3048],
    ['100', 'US gal', 378.5412],
    ['10', 'lb', 4.53592],
  ])('[UNI7] %s %s is kept as %d, which shows as typed again', (typed, unit, kept) => {
    expect(fromOtherUnit({ ...readBack(typed), unit })).toBe(kept)
    expect(inOtherUnitAsGiven(kept, unit)).toBe(typed.replace('-', '−'))
  })

  it.each<[number, OtherUnit, string]>([
    [60, '°F', '140'],
    [61, '°F', '141.8'],
    [44.6, '°F', '112.3'],
    [4.2, '°F difference', '7.6'],
    [25, 'in', '0.98'],
    [25.4, 'in', '1'],
    [1000, 'US gal', '264.2'],
    [3, 'ft', '10'],
    [10, 'lb', '22'],
  ])('[UNI5] %d, given in the unit of the record, is shown in %s as %s: no digit is invented', (value, unit, want) => {
    expect(inOtherUnitAsGiven(value, unit)).toBe(want)
  })

  it('[UNI7] what is typed in any unit, as finely as instruments show, comes back exactly as it was typed', () => {
    const finest = (unit: OtherUnit): number => (unit.startsWith('°F') ? 1 : 4)
    const typed = fc
      .constantFrom(...OTHERS)
      .chain((unit) =>
        fc.tuple(
          fc.constant(unit),
          fc.integer({ min: -99_999, max: 999_999 }),
          fc.integer({ min: 0, max: finest(unit) }),
        ),
      )
    fc.assert(
      fc.property(typed, ([unit, digits, decimals]) => {
        const value = Number(`${digits}e-${decimals}`)
        const text = inOtherUnitAsGiven(fromOtherUnit({ value, decimals, unit }), unit)
        expect(readBack(text).value).toBe(value + 0)
      }),
      { numRuns: 2000 },
    )
  })

  it('[UNI5] what was given in the unit of the record can be read back from what is shown', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...OTHERS),
        fc.integer({ min: -99_999, max: 999_999 }),
        fc.integer({ min: 0, max: 4 }),
        (unit, digits, decimals) => {
          const value = Number(`${digits}e-${decimals}`)
          const shown = readBack(inOtherUnitAsGiven(value, unit))
          const back = fromOtherUnit({ ...shown, unit })
          expect(Number(back.toFixed(decimalsOf(value))) + 0).toBe(value + 0)
        },
      ),
      { numRuns: 2000 },
    )
  })

  it('[UNI8] a difference of temperatures is the difference of what the temperatures show', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -50, max: 150, noNaN: true }),
        fc.double({ min: -50, max: 150, noNaN: true }),
        (a, b) => {
          expect(inOtherUnit(a, '°F') - inOtherUnit(b, '°F')).toBeCloseTo(inOtherUnit(a - b, '°F difference'), 9)
        },
      ),
    )
  })

  it('[UNI5] every unit of the record has one other, which follows the preference', () => {
    for (const unit of RECORD_UNITS) {
      expect(isRecordUnit(unit) && isOtherUnit(otherUnitOf(unit))).toBe(true)
      expect(preferredUnit(unit, METRIC_UNITS)).toBe(unit)
      expect(preferredUnit(unit, US_UNITS)).toBe(otherUnitOf(unit))
    }
    expect(isRecordUnit('mg/L') || isOtherUnit('mg/L')).toBe(false)
  })

  it('writes numbers without exponents or noise', () => {
    expect([0.1 + 0.2, 1e-7, -0, -3, 1_160_000].map(plainText)).toEqual(['0.3', '0.0000001', '0', '−3', '1160000'])
  })

  it('refuses what is no measurement', () => {
    expect(() => inOtherUnitAsGiven(Number.NaN, 'in')).toThrow(RangeError)
    expect(() => fromOtherUnit({ value: 1, decimals: 0.5, unit: 'lb' })).toThrow(RangeError)
  })
})
