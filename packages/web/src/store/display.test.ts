import { describe, expect, it } from 'vitest'
import { showConcentration, showPipeSize, showTemperature, showVolume } from './display.ts'

// Definitions: 0 °C = 32 °F, 100 °C = 212 °F; 1 US gal = 3.785 411 784 L; 1 in = 25.4 mm. NIST SP 811 (2008) B.8, from memory.
describe('numbers in the preferred units', () => {
  it.each([
    [0, '32 °F'],
    [100, '212 °F'],
    [44.6, '112.3 °F'],
    [-40, '−40 °F'],
  ])('shows %s °C as %s', (celsius, words) => expect(showTemperature(celsius, { temperature: '°F' }).words).toBe(words))

  it('keeps what was given in the unit it was given', () => {
    expect(showTemperature(44.6, { temperature: '°C' }).words).toBe('44.6 °C')
    expect(showVolume(0.25, { volume: 'gal' }).words).toBe('250 mL')
    expect(showPipeSize(39.6, { length: 'mm' }).words).toBe('39.6 mm')
  })

  it('shows gallons', () => expect(showVolume(3785.411784, { volume: 'gal' }).words).toBe('1000 gal'))
  it('shows inches', () => expect(showPipeSize(25.4, { length: 'in' }).words).toBe('1 in'))

  it('shows counts per the preferred volume, and never moves a swab or a genome unit into another family', () => {
    expect(showConcentration({ value: 38, unit: 'CFU/mL' }, { count: 'per L' }).words).toBe('38000 CFU/L')
    expect(showConcentration({ value: 38, unit: 'CFU/swab' }, { count: 'per L' }).words).toBe('38 CFU/swab')
    expect(showConcentration({ value: 500, unit: 'GU/L' }, { count: 'per mL' }).words).toBe('0.5 GU/mL')
  })
})
