import bands from '@rillmark/reference/findings/temperature-bands.json' with { type: 'json' }
import { expect, test } from 'vitest'
import { US_UNITS } from '../units/display-units.ts'
import { TEMPERATURE_BANDS, temperatureBandAt, temperatureBandWords } from './temperature-band.ts'

test('[FND1] a band is called as its file calls it, and the same in the reader’s unit', () => {
  expect(TEMPERATURE_BANDS.map((band) => temperatureBandWords(band))).toEqual(bands.bands.map(({ words }) => words))
  // 20, 25, 45 and 60 °C are 68, 77, 113 and 140 °F by the definition of the scale
  const us = TEMPERATURE_BANDS.map((band) => temperatureBandWords(band, US_UNITS))
  expect(us).toEqual(expect.arrayContaining(['below 68 °F', '77 to below 113 °F', '140 °F and above']))
})

test('[FND1] every temperature lies in one band', () => {
  expect([-5, 19.9, 20, 44.6, 60, 99].map((c) => TEMPERATURE_BANDS[temperatureBandAt(c)]?.id)).toEqual([
    'below-20',
    'below-20',
    '20-25',
    '25-45',
    '60-up',
    '60-up',
  ])
})
