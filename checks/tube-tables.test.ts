// Content of tubes.
import { pipeSizes } from '@rillmark/science/pipes/pipe-catalogue.ts'
import { type PipeInput, pipeVolume } from '@rillmark/science/pipes/pipe-volume.ts'
import { expect, test } from 'vitest'
import { type From, hold } from './rows.ts'

const MM_PER_INCH = 25.4
const LITRES_PER_GALLON = 3.785411784
const METRES_PER_100_FEET = 30.48
const B88: From = 'seen: ASTM B88 inside diameters, as restated in public tube tables'
const B88_CONTENT: From = 'computed: π/4 d² of those inside diameters'
const PEX: From = 'seen: published content of PEX SDR 9 in gallons per 100 ft'
const PEX_BORE: From = 'seen: inside diameters of PEX SDR 9 in two public tables'
const EN: From = 'computed: EN 1057 outside diameter less two walls'
const EXACT = 'a difference of two printed figures'
const PRINTED = 'half a last printed digit'
const MEAN_BORE = 'published content is of the mean bore, 3 to 5 % below that of the listed one: half of 6 % either way'
const b88 = (type: string, size: string): PipeInput => ({ standard: `astm-b88-type-${type}`, size, lengthM: 1 })
const pex = (size: string): PipeInput => ({ standard: 'pex-sdr9', size, lengthM: 1 })
const en = (size: string, lengthM = 1): PipeInput => ({ standard: 'en-1057', size, lengthM })

// biome-ignore format: a table, one row a line
hold<PipeInput>(
  [
    ['K 3/8, inches', b88('k', '3/8'), 0.402, 1e-9, EXACT, B88],
    ['L 3/8, inches', b88('l', '3/8'), 0.43, 1e-9, EXACT, B88],
    ['M 3/8, inches', b88('m', '3/8'), 0.45, 1e-9, EXACT, B88],
    ['K 1/2, inches', b88('k', '1/2'), 0.527, 1e-9, EXACT, B88],
    ['L 1/2, inches', b88('l', '1/2'), 0.545, 1e-9, EXACT, B88],
    ['M 1/2, inches', b88('m', '1/2'), 0.569, 1e-9, EXACT, B88],
    ['K 5/8, inches', b88('k', '5/8'), 0.652, 1e-9, EXACT, B88],
    ['L 5/8, inches', b88('l', '5/8'), 0.666, 1e-9, EXACT, B88],
    ['K 3/4, inches', b88('k', '3/4'), 0.745, 1e-9, EXACT, B88],
    ['L 3/4, inches', b88('l', '3/4'), 0.785, 1e-9, EXACT, B88],
    ['M 3/4, inches', b88('m', '3/4'), 0.811, 1e-9, EXACT, B88],
    ['K 1, inches', b88('k', '1'), 0.995, 1e-9, EXACT, B88],
    ['L 1, inches', b88('l', '1'), 1.025, 1e-9, EXACT, B88],
    ['M 1, inches', b88('m', '1'), 1.055, 1e-9, EXACT, B88],
    ['trap: K 1 1/4, inches, where one page is a row off (1.231)', b88('k', '1 1/4'), 1.245, 1e-9, EXACT, B88],
    ['L 1 1/4, inches', b88('l', '1 1/4'), 1.265, 1e-9, EXACT, B88],
    ['M 1 1/4, inches', b88('m', '1 1/4'), 1.291, 1e-9, EXACT, B88],
    ['K 1 1/2, inches', b88('k', '1 1/2'), 1.481, 1e-9, EXACT, B88],
    ['L 1 1/2, inches', b88('l', '1 1/2'), 1.505, 1e-9, EXACT, B88],
    ['M 1 1/2, inches', b88('m', '1 1/2'), 1.527, 1e-9, EXACT, B88],
    ['K 2, inches', b88('k', '2'), 1.959, 1e-9, EXACT, B88],
    ['L 2, inches', b88('l', '2'), 1.985, 1e-9, EXACT, B88],
    ['M 2, inches', b88('m', '2'), 2.009, 1e-9, EXACT, B88],
    ['K 2 1/2, inches', b88('k', '2 1/2'), 2.435, 1e-9, EXACT, B88],
    ['L 2 1/2, inches', b88('l', '2 1/2'), 2.465, 1e-9, EXACT, B88],
    ['M 2 1/2, inches', b88('m', '2 1/2'), 2.495, 1e-9, EXACT, B88],
    ['K 3, inches', b88('k', '3'), 2.907, 1e-9, EXACT, B88],
    ['L 3, inches', b88('l', '3'), 2.945, 1e-9, EXACT, B88],
    ['M 3, inches', b88('m', '3'), 2.981, 1e-9, EXACT, B88],
    ['K 4, inches', b88('k', '4'), 3.857, 1e-9, EXACT, B88],
    ['trap: L 4, inches, where sources differ (3.897 or 3.905)', b88('l', '4'), 3.897, 0.008, 'walls of 0.114 and 0.110 in are both printed', B88],
    ['M 4, inches', b88('m', '4'), 3.935, 1e-9, EXACT, B88],
    ['PEX 3/8, inches', pex('3/8'), 0.36, 1e-9, EXACT, PEX_BORE],
    ['PEX 1/2, inches', pex('1/2'), 0.485, 1e-9, EXACT, PEX_BORE],
    ['PEX 5/8, inches', pex('5/8'), 0.584, 1e-9, EXACT, PEX_BORE],
    ['PEX 3/4, inches', pex('3/4'), 0.681, 1e-9, EXACT, PEX_BORE],
    ['PEX 1, inches', pex('1'), 0.875, 1e-9, EXACT, PEX_BORE],
  ],
  (input) => pipeVolume(input).boreMm / MM_PER_INCH,
)

// biome-ignore format: a table, one row a line
hold<PipeInput>(
  [
    ['K 3/8, litres per metre', b88('k', '3/8'), 0.0819, 5e-5, PRINTED, B88_CONTENT],
    ['L 3/8, litres per metre', b88('l', '3/8'), 0.0937, 5e-5, PRINTED, B88_CONTENT],
    ['M 3/8, litres per metre', b88('m', '3/8'), 0.1026, 5e-5, PRINTED, B88_CONTENT],
    ['K 1/2, litres per metre', b88('k', '1/2'), 0.1407, 5e-5, PRINTED, B88_CONTENT],
    ['L 1/2, litres per metre', b88('l', '1/2'), 0.1505, 5e-5, PRINTED, B88_CONTENT],
    ['M 1/2, litres per metre', b88('m', '1/2'), 0.1641, 5e-5, PRINTED, B88_CONTENT],
    ['L 3/4, litres per metre', b88('l', '3/4'), 0.3122, 5e-5, PRINTED, B88_CONTENT],
    ['M 1, litres per metre', b88('m', '1'), 0.564, 5e-5, PRINTED, B88_CONTENT],
    ['K 1 1/4, litres per metre', b88('k', '1 1/4'), 0.7854, 5e-5, PRINTED, B88_CONTENT],
    ['L 1 1/2, litres per metre', b88('l', '1 1/2'), 1.1477, 5e-5, PRINTED, B88_CONTENT],
    ['M 2, litres per metre', b88('m', '2'), 2.0451, 5e-5, PRINTED, B88_CONTENT],
    ['K 2 1/2, litres per metre', b88('k', '2 1/2'), 3.0044, 5e-5, PRINTED, B88_CONTENT],
    ['L 3, litres per metre', b88('l', '3'), 4.3947, 5e-5, PRINTED, B88_CONTENT],
    ['M 4, litres per metre', b88('m', '4'), 7.846, 5e-5, PRINTED, B88_CONTENT],
    ['12x1, litres per metre', en('12x1'), 0.0785, 5e-5, PRINTED, EN],
    ['15x1, litres per metre', en('15x1'), 0.1327, 5e-5, PRINTED, EN],
    ['15x0.7, litres per metre', en('15x0.7'), 0.1453, 5e-5, PRINTED, EN],
    ['18x1, litres per metre', en('18x1'), 0.2011, 5e-5, PRINTED, EN],
    ['22x1, litres per metre', en('22x1'), 0.3142, 5e-5, PRINTED, EN],
    ['28x1, litres per metre', en('28x1'), 0.5309, 5e-5, PRINTED, EN],
    ['trap: 28x1.5, the other wall of 28', en('28x1.5'), 0.4909, 5e-5, PRINTED, EN],
    ['35x1.2, litres per metre', en('35x1.2'), 0.8347, 5e-5, PRINTED, EN],
    ['35x1.5, litres per metre', en('35x1.5'), 0.8042, 5e-5, PRINTED, EN],
    ['42x1.2, litres per metre', en('42x1.2'), 1.2316, 5e-5, PRINTED, EN],
    ['42x1.5, litres per metre', en('42x1.5'), 1.1946, 5e-5, PRINTED, EN],
    ['54x1.5, litres per metre', en('54x1.5'), 2.0428, 5e-5, PRINTED, EN],
    ['54x2, litres per metre', en('54x2'), 1.9635, 5e-5, PRINTED, EN],
  ],
  (input) => pipeVolume(input).litresPerMetre,
)

// biome-ignore format: a table, one row a line
hold<PipeInput>(
  [
    ['PEX 3/8, gallons per 100 ft, 3 % up', pex('3/8'), 0.5 * 1.03, { share: 0.03 }, MEAN_BORE, PEX],
    ['PEX 1/2, gallons per 100 ft, 3 % up', pex('1/2'), 0.92 * 1.03, { share: 0.03 }, MEAN_BORE, PEX],
    ['PEX 5/8, gallons per 100 ft, 3 % up', pex('5/8'), 1.34 * 1.03, { share: 0.03 }, MEAN_BORE, PEX],
    ['PEX 3/4, gallons per 100 ft, 3 % up', pex('3/4'), 1.83 * 1.03, { share: 0.03 }, MEAN_BORE, PEX],
    ['PEX 1, gallons per 100 ft, 3 % up', pex('1'), 3.03 * 1.03, { share: 0.03 }, MEAN_BORE, PEX],
  ],
  (input) => (pipeVolume(input).litresPerMetre / LITRES_PER_GALLON) * METRES_PER_100_FEET,
)

// biome-ignore format: a table, one row a line
hold<PipeInput>(
  [
    ['38.2 m of 12x1', en('12x1', 38.2), 3, { share: 2e-3 }, 'length printed to three digits', EN],
    ['22.6 m of 15x1', en('15x1', 22.6), 3, { share: 2e-3 }, 'length printed to three digits', EN],
    ['14.9 m of 18x1', en('18x1', 14.9), 3, { share: 3e-3 }, 'length printed to three digits', EN],
    ['9.55 m of 22x1', en('22x1', 9.55), 3, { share: 2e-3 }, 'length printed to three digits', EN],
    ['5.65 m of 28x1', en('28x1', 5.65), 3, { share: 2e-3 }, 'length printed to three digits', EN],
    ['2.51 m of 42x1.5', en('42x1.5', 2.51), 3, { share: 2e-3 }, 'length printed to three digits', EN],
    ['1.53 m of 54x2', en('54x2', 1.53), 3, { share: 4e-3 }, 'length printed to three digits', EN],
    ['a 250 mL draw lies in 1.88 m of 15x1', en('15x1', 1.88 * 12), 3, { share: 3e-3 }, 'length printed to three digits', EN],
    ['1 L lies in 6.64 m of L 1/2', { ...b88('l', '1/2'), lengthM: 6.64 * 3 }, 3, { share: 2e-3 }, 'length printed to three digits', B88_CONTENT],
    ['1 L lies in 8.39 m of PEX 1/2', { ...pex('1/2'), lengthM: 8.39 * 3 }, 3, { share: 2e-3 }, 'length printed to three digits', PEX_BORE],
  ],
  (input) => pipeVolume(input).volumeL,
)

test('the catalogue has every row of the tables', () => {
  const per = (standard: string) => pipeSizes.filter((row) => row.standard === standard).length
  expect(['k', 'l', 'm'].map((type) => per(`astm-b88-type-${type}`))).toEqual([11, 11, 10])
  expect([per('pex-sdr9'), per('en-1057')]).toEqual([5, 13])
})
