import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { CONCENTRATION_UNITS, basisOf, convertConcentration, familyOf } from './quantity.ts'

const anyUnit = fc.constantFrom(...CONCENTRATION_UNITS)
const anyPair = fc.tuple(anyUnit, anyUnit)

describe('convertConcentration', () => {
  // The identity 1 CFU/mL = 100 CFU/100 mL = 1000 CFU/L follows from the definitions of the litre and millilitre (computed).
  it.each([
    [1, 'CFU/mL', 'CFU/L', 1000],
    [1, 'CFU/mL', 'CFU/100 mL', 100],
    [100, 'CFU/100 mL', 'CFU/L', 1000],
    [0.29, 'CFU/mL', 'CFU/100 mL', 29],
    [5, 'GU/L', 'GU/mL', 0.005],
    [7, 'CFU/swab', 'CFU/swab', 7],
  ] as const)('[UNI1] %d %s in %s is %d', (value, unit, to, want) => {
    expect(convertConcentration({ value, unit }, to)).toEqual({ kind: 'converted', value: want, unit: to })
  })

  it('[UNI2] refuses every pair of different families or of water and swab, and converts every other pair', () => {
    for (const from of CONCENTRATION_UNITS) {
      for (const to of CONCENTRATION_UNITS) {
        const alike = familyOf(from) === familyOf(to) && basisOf(from) === basisOf(to)
        expect(convertConcentration({ value: 12, unit: from }, to).kind).toBe(alike ? 'converted' : 'refused')
      }
    }
  })

  it('[UNI2] says why it refuses', () => {
    expect(convertConcentration({ value: 3, unit: 'GU/L' }, 'CFU/L')).toMatchObject({
      reason: expect.stringContaining('different things'),
    })
    expect(convertConcentration({ value: 3, unit: 'CFU/swab' }, 'CFU/L')).toMatchObject({
      reason: expect.stringContaining('swab'),
    })
  })

  it('[UNI3] gives the same value back after a round trip, for values of up to 12 digits', () => {
    fc.assert(
      fc.property(
        anyPair,
        fc.integer({ min: 1, max: 999_999_999_999 }),
        fc.integer({ min: 0, max: 6 }),
        ([from, to], n, shift) => {
          const value = Number(`${n}e-${shift}`)
          const there = convertConcentration({ value, unit: from }, to)
          if (there.kind === 'refused') return
          expect(convertConcentration(there, from)).toEqual({ kind: 'converted', value, unit: from })
        },
      ),
    )
  })

  it('throws on a value that is no count', () => {
    for (const value of [Number.NaN, -1, Number.POSITIVE_INFINITY])
      expect(() => convertConcentration({ value, unit: 'CFU/L' }, 'CFU/mL')).toThrow(RangeError)
  })
})
