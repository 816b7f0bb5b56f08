import * as fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  DEFAULT_PREFERENCES,
  type DisplayPreferences,
  type DisplayedQuantity,
  display,
  displayConcentration,
  displayResult,
  fromDisplayed,
} from './display.ts'

const american: DisplayPreferences = {
  temperature: '°F',
  volume: 'US gal',
  bore: 'in',
  length: 'ft',
  mass: 'lb',
  concentrationPer: 'mL',
}

describe('display', () => {
  // NIST SP 811, appendix B: exact conversion factors (memory; the factors are definitions).
  it.each<[DisplayedQuantity, number, number, string]>([
    ['temperature', 60, 0, '140 °F'],
    ['temperature', 44.6, 1, '112.3 °F'],
    ['temperature', -40, 1, '-40.0 °F'],
    ['volume', 1, 0, '0.3 US gal'],
    ['volume', 378.5411784, 7, '100.00000000 US gal'],
    ['bore', 25.4, 1, '1.000 in'],
    ['length', 3.048, 3, '10.000 ft'],
    ['mass', 0.45359237, 8, '1.00000000 lb'],
    ['mass', 10, 0, '22 lb'],
  ])('[UNI5] %s %d with %d decimals is %s', (quantity, value, decimals, want) => {
    expect(display({ quantity, value, decimals }, american).text).toBe(want)
  })

  it('[UNI5] leaves the record unit alone', () => {
    expect(display({ quantity: 'temperature', value: 60, decimals: 1 }, DEFAULT_PREFERENCES).text).toBe('60.0 °C')
  })

  it('[UNI5] reading the shown value back gives the given one', () => {
    const quantity = fc.constantFrom<DisplayedQuantity>('temperature', 'volume', 'bore', 'length', 'mass')
    fc.assert(
      fc.property(
        quantity,
        fc.integer({ min: -99_999, max: 999_999 }),
        fc.integer({ min: 0, max: 4 }),
        (name, digits, decimals) => {
          const value = Number(`${digits}e-${decimals}`)
          const shown = display({ quantity: name, value, decimals }, american)
          const back = fromDisplayed({ quantity: name, value: shown.value, decimals: shown.decimals, unit: shown.unit })
          expect(Number(back.value.toFixed(decimals)) + 0).toBe(value + 0)
        },
      ),
    )
  })

  it('refuses what is no measurement', () => {
    expect(() => display({ quantity: 'mass', value: Number.NaN, decimals: 0 }, american)).toThrow(RangeError)
    expect(() => display({ quantity: 'mass', value: 1, decimals: 0.5 }, american)).toThrow(RangeError)
  })
})

describe('results in words', () => {
  it('[UNI1] counts follow the preference within their family; genome units and swabs are not turned into colonies', () => {
    expect(displayConcentration(12_300, { unit: 'CFU/L', preferences: american })).toBe('12.3 CFU/mL')
    expect(displayConcentration(12_300, { unit: 'GU/L', preferences: american })).toBe('12.3 GU/mL')
    expect(displayConcentration(40, { unit: 'CFU/swab', preferences: american })).toBe('40 CFU/swab')
    expect(displayConcentration(1_160_000, { unit: 'GU/L', preferences: DEFAULT_PREFERENCES })).toBe('1160000 GU/L')
    expect(displayConcentration(0.0000001, { unit: 'CFU/mL', preferences: DEFAULT_PREFERENCES })).toBe(
      '0.0000001 CFU/mL',
    )
  })

  it.each([
    [{ kind: 'below', limit: 100, unit: 'CFU/L' }, 'less than 0.1 CFU/mL'],
    [{ kind: 'above', limit: 300, unit: 'CFU/mL' }, 'more than 300 CFU/mL'],
    [{ kind: 'not-detected', volumeMl: 1000 }, 'not detected in 1000 mL'],
    [{ kind: 'not-detected', limit: 10, unit: 'CFU/L' }, 'not detected, limit 0.01 CFU/mL'],
    [{ kind: 'not-detected' }, 'not detected, volume not told'],
    [{ kind: 'detected' }, 'detected, not counted'],
    [{ kind: 'overgrown' }, 'overgrown, not interpretable'],
    [{ kind: 'broken' }, 'container broken'],
    [{ kind: 'not-tested', reason: 'late' }, 'not tested: late'],
  ] as const)('[UNI4] %j reads "%s"', (value, want) => {
    expect(displayResult(value, american)).toBe(want)
  })
})
