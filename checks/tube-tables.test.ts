// Content of tubes.
// ASTM B88 walls and inside diameters, as restated in public tube tables. Known by: seen; litres per metre: computed.
// PEX SDR 9, published content in gallons per 100 ft. Known by: seen; it uses the mean bore, so it is 3 to 5 % lower.
// EN 1057 litres per metre. Known by: computed.
import { pipeSizes } from '@rillmark/science/pipes/pipe-catalogue.ts'
import { pipeVolume } from '@rillmark/science/pipes/pipe-volume.ts'
import { expect, test } from 'vitest'

const MM_PER_INCH = 25.4
const LITRES_PER_GALLON = 3.785411784
const METRES_PER_100_FEET = 30.48

test.each([
  // type, size, inside diameter in, litres per metre
  ['k', '3/8', 0.402, 0.0819],
  ['l', '3/8', 0.43, 0.0937],
  ['m', '3/8', 0.45, 0.1026],
  ['k', '1/2', 0.527, 0.1407],
  ['l', '1/2', 0.545, 0.1505],
  ['m', '1/2', 0.569, 0.1641],
  ['l', '5/8', 0.666, 0.2248],
  ['l', '3/4', 0.785, 0.3122],
  ['m', '1', 1.055, 0.564],
  ['k', '1 1/4', 1.245, 0.7854],
  ['l', '1 1/2', 1.505, 1.1477],
  ['m', '2', 2.009, 2.0451],
  ['k', '2 1/2', 2.435, 3.0044],
  ['l', '3', 2.945, 4.3947],
  ['m', '4', 3.935, 7.846],
])('ASTM B88 type %s, %s in', (type, size, insideIn, litresPerMetre) => {
  const got = pipeVolume({ standard: `astm-b88-type-${type}`, size, lengthM: 1 })
  expect(got.boreMm).toBeCloseTo(insideIn * MM_PER_INCH, 9)
  // Printed to four decimals.
  expect(Number(got.litresPerMetre.toFixed(4))).toBe(litresPerMetre)
})

test.each([
  // size, published gallons per 100 ft
  ['3/8', 0.5],
  ['1/2', 0.92],
  ['5/8', 1.34],
  ['3/4', 1.83],
  ['1', 3.03],
])('PEX %s in holds up to 6 %% more than its published content', (size, gallons) => {
  const published = (gallons * LITRES_PER_GALLON) / METRES_PER_100_FEET
  const { litresPerMetre } = pipeVolume({ standard: 'pex-sdr9', size, lengthM: 1 })
  expect(litresPerMetre / published).toBeGreaterThan(1)
  expect(litresPerMetre / published).toBeLessThan(1.06)
})

test.each([
  // size, bore mm, litres per metre, metres that hold 3 L
  ['12x1', 10, 0.0785, 38.2],
  ['15x1', 13, 0.1327, 22.6],
  ['15x0.7', 13.6, 0.1453, 20.7],
  ['18x1', 16, 0.2011, 14.9],
  ['22x1', 20, 0.3142, 9.55],
  ['28x1', 26, 0.5309, 5.65],
  ['28x1.5', 25, 0.4909, 6.11],
  ['35x1.2', 32.6, 0.8347, 3.59],
  ['42x1.5', 39, 1.1946, 2.51],
  ['54x2', 50, 1.9635, 1.53],
])('EN 1057 %s', (size, boreMm, litresPerMetre, metres) => {
  const got = pipeVolume({ standard: 'en-1057', size, lengthM: metres })
  expect(got.boreMm).toBeCloseTo(boreMm, 9)
  expect(Number(got.litresPerMetre.toFixed(4))).toBe(litresPerMetre)
  // The length is printed to three figures.
  expect(got.volumeL).toBeCloseTo(3, 1)
})

test('the catalogue has every row of the tables', () => {
  const per = (standard: string) => pipeSizes.filter((row) => row.standard === standard).length
  expect(['k', 'l', 'm'].map((type) => per(`astm-b88-type-${type}`))).toEqual([11, 11, 10])
  expect([per('pex-sdr9'), per('en-1057')]).toEqual([5, 13])
})
