import { describe, expect, it } from 'vitest'
import { US_UNITS } from './display-units.ts'
import { figureSchema, figureText } from './figure.ts'

describe('figures', () => {
  it('read as on a run sheet', () => {
    expect(figureText({ value: 25, unit: 'mm' })).toBe('25 mm')
    expect(figureText({ value: { min: 3, max: 5 }, unit: 'mL' })).toBe('3–5 mL')
    expect(figureText({ value: { min: 4, max: 4 }, unit: '°C' })).toBe('4 °C')
  })

  it('[UNI5] read in the units of the reader', () => {
    expect(figureText({ value: { min: 2, max: 8 }, unit: '°C' }, US_UNITS)).toBe('35.6–46.4 °F')
    expect(figureText({ value: 24, unit: 'h' }, US_UNITS)).toBe('24 h')
  })

  it.each([
    { value: 1, unit: 'mL', source: '', known: 'seen' },
    { value: 1, unit: 'mL', source: 'a handbook', known: 'sure' },
    { value: 1, source: 'a handbook', known: 'seen' },
    { value: { min: 5, max: 3 }, unit: 'mL', source: 'a handbook', known: 'seen' },
  ])('%j is refused', (figure) => {
    expect(figureSchema.safeParse(figure).success).toBe(false)
  })
})
