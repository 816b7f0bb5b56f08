import { expect, test } from 'vitest'
import settings from '@rillmark/reference/network/simulation.json' with { type: 'json' }
import { GROWTH_BAND } from '../findings/temperature-band.ts'
import { hoursByBand } from './hours-by-band.ts'

test('[WAT5] the hours of a day lie in the temperature bands by their curve and come to 24', () => {
  // a quarter of the day each: 19.9, 25, 44.9 and 60 °C; the edge belongs to the band above it
  const found = hoursByBand([19.9, 25, 44.9, 60])
  expect(Object.fromEntries(found.map(({ band, hours }) => [band.id, hours]))).toEqual({
    'below-20': 6,
    '20-25': 0,
    '25-45': 12,
    '45-50': 0,
    '50-55': 0,
    '55-60': 0,
    '60-up': 6,
  })
  expect(hoursByBand([]).every(({ hours }) => hours === 0)).toBe(true)
})

test('the band hours of growth are counted in by the simulation is the one readings are grouped by', () => {
  const { bandLower, bandUpper } = settings.figures
  expect([GROWTH_BAND.from, GROWTH_BAND.below]).toEqual([bandLower.value, bandUpper.value])
})
