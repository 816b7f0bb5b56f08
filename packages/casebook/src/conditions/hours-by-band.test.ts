import { expect, test } from 'vitest'
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
