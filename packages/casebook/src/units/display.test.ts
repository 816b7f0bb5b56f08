import { describe, expect, it } from 'vitest'
import { METRIC_UNITS, US_UNITS, displayUnitsFrom, systemOf, unitsOf } from './display-units.ts'
import { show, showConcentration, showRange, showReckoned, showTemperature } from './display.ts'

const us = (unit: string) => ({ unit, units: US_UNITS })
const metric = (unit: string) => ({ unit, units: METRIC_UNITS })
const per = (count: 'per mL' | 'per L') => ({ ...METRIC_UNITS, count })

describe('values as they are shown', () => {
  // Definitions of the units: NIST SP 811 (2008), appendix B (memory).
  it.each([
    [60, '°C', '140 °F'],
    [44.6, '°C', '112.3 °F'],
    [4.2, 'K', '7.6 °F difference'],
    [1000, 'L', '264.2 US gal'],
    [9.46353, 'L/min', '2.5 US gal/min'],
    [39.6, 'mm', '1.559 in'],
    [12, 'm', '39 ft'],
    [10, 'kg', '22 lb'],
    [0.25, 'L', '250 mL'],
    [1.2, 'mg/L', '1.2 mg/L'],
    [7.4, '', '7.4'],
  ])('[UNI5] %d %s reads %s where US units are preferred', (value, unit, want) => {
    expect(show(value, us(unit)).words).toBe(want)
  })

  it.each([
    [60, '°C', '60 °C'],
    [-2.5, '°C', '−2.5 °C'],
    [0.25, 'L', '250 mL'],
    [1000, 'L', '1000 L'],
    [60.5555555555556, '°C', '60.5556 °C'],
  ])('[UNI5] %d %s stays in the unit of the record as %s', (value, unit, want) => {
    expect(show(value, metric(unit)).words).toBe(want)
  })

  it('[UNI5] what was reckoned is converted first and rounded once', () => {
    expect(showReckoned(54.3219876, metric('°C')).words).toBe('54.32 °C')
    expect(showReckoned(54.3219876, us('°C')).words).toBe('129.8 °F')
    expect(showReckoned(1.09876, us('L')).words).toBe('0.2903 US gal')
    expect(showReckoned(123_456, metric('L')).words).toBe('123456 L')
    expect(showReckoned(0.51234, metric('L')).words).toBe('512.3 mL')
  })

  it('[UNI5] a range says its unit once', () => {
    expect(showRange([2, 8], metric('°C'))).toBe('2 to 8 °C')
    expect(showRange([2, 8], us('°C'))).toBe('35.6 to 46.4 °F')
    expect(showRange([5, 5], us('°C'))).toBe('41 °F')
    expect(showTemperature(50, US_UNITS)).toEqual({ text: '122', unit: '°F', words: '122 °F' })
  })

  it('[UNI1] counts follow the preference within their family; genome units and swabs are not turned into colonies', () => {
    expect(showConcentration({ value: 12_300, unit: 'CFU/L' }, per('per mL')).words).toBe('12.3 CFU/mL')
    expect(showConcentration({ value: 38, unit: 'CFU/mL' }, per('per L')).words).toBe('38000 CFU/L')
    expect(showConcentration({ value: 12_300, unit: 'GU/L' }, per('per mL')).words).toBe('12.3 GU/mL')
    expect(showConcentration({ value: 40, unit: 'CFU/swab' }, per('per mL')).words).toBe('40 CFU/swab')
    expect(showConcentration({ value: 1_160_000, unit: 'GU/L' }, METRIC_UNITS).words).toBe('1160000 GU/L')
    expect(showConcentration({ value: 0.0000001, unit: 'CFU/mL' }, METRIC_UNITS).words).toBe('0.0000001 CFU/mL')
  })
})

describe('preferences', () => {
  it('belong to a system or are a mixture; how counts are shown belongs to neither', () => {
    expect(systemOf({ ...unitsOf('us'), count: 'per L' })).toBe('us')
    expect(systemOf(METRIC_UNITS)).toBe('metric')
    expect(systemOf({ ...US_UNITS, mass: 'kg' })).toBeUndefined()
  })

  it('from outside are taken as far as they are choices', () => {
    expect(displayUnitsFrom({ temperature: '°F', volume: 'pint', count: 7 })).toEqual({
      ...METRIC_UNITS,
      temperature: '°F',
    })
    expect(displayUnitsFrom(US_UNITS)).toEqual(US_UNITS)
  })
})
