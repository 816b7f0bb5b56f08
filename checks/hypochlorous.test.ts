// Acid constant and share of hypochlorous acid.
import { hypochlorousFraction, morrisPKa } from '@rillmark/science/chlorine/hypochlorous-fraction.ts'
import { expect, test } from 'vitest'
import oracle from './oracles/chemistry.json' with { type: 'json' }
import { type From, hold } from './rows.ts'

const MORRIS: From = 'memory: Morris, J. Phys. Chem. 70 (1966) 3798, printed table of pKa'
const MORRIS_SHARE: From = 'computed: from the formula of Morris 1966'
const TEACHING: From = 'seen: Ka of 2.9e-8 in public teaching material on acids'
const EXAM: From = 'seen: Ka of 2.7e-8 in a public examination question'
const PLANT: From = 'computed: ln Ka of the US EPA Water Treatment Plant model manual, app. A, eq. A-55 (formula seen)'
const BENJAMIN: From = 'computed: Benjamin 2015, app. A, pKa 7.53 at 25 °C and 13.8 kJ/mol (constants seen)'
const SCIPY: From = 'computed: oracles/chemistry.py, the balance of acid and hypochlorite solved'
const HALF = 'half a last printed digit, and a tenth of one'
const OTHER = 'other constants differ by up to this at 20 and 25 °C'

// biome-ignore format: a table, one row a line
hold<number>(
  [
    ['pKa at 0 °C', 0, 7.825, 6e-4, HALF, MORRIS],
    ['pKa at 5 °C', 5, 7.754, 6e-4, HALF, MORRIS],
    ['pKa at 10 °C', 10, 7.69, 6e-4, HALF, MORRIS],
    ['pKa at 15 °C', 15, 7.633, 6e-4, HALF, MORRIS],
    ['pKa at 20 °C', 20, 7.582, 6e-4, HALF, MORRIS],
    ['pKa at 25 °C', 25, 7.537, 6e-4, HALF, MORRIS],
    ['pKa at 30 °C', 30, 7.497, 6e-4, HALF, MORRIS],
    ['pKa at 35 °C', 35, 7.463, 6e-4, HALF, MORRIS],
    ['pKa at 25 °C elsewhere', 25, -Math.log10(2.9e-8), 0.02, OTHER, TEACHING],
    ['pKa at 20 °C elsewhere', 20, -Math.log10(2.7e-8), 0.02, OTHER, EXAM],
  ],
  morrisPKa,
)

const PH = [6, 6.5, 7, 7.5, 8, 8.5, 9]

// biome-ignore format: a table, one row a line
hold<number>(
  [
    ['shares at 5 °C', 5, [98.27, 94.72, 85.02, 64.23, 36.21, 15.22, 5.37], 0.006, HALF, MORRIS_SHARE],
    ['shares at 10 °C', 10, [98.0, 93.94, 83.05, 60.78, 32.89, 13.42, 4.67], 0.006, HALF, MORRIS_SHARE],
    ['shares at 20 °C', 20, [97.45, 92.35, 79.24, 54.69, 27.63, 10.77, 3.68], 0.006, HALF, MORRIS_SHARE],
    ['shares at 25 °C', 25, [97.18, 91.58, 77.48, 52.11, 25.6, 9.81, 3.33], 0.006, HALF, MORRIS_SHARE],
    ['shares at 30 °C', 30, [96.92, 90.86, 75.86, 49.84, 23.91, 9.04, 3.05], 0.006, HALF, MORRIS_SHARE],
    ['shares at 40 °C, drawn on', 40, [96.45, 89.58, 73.1, 46.22, 21.37, 7.91, 2.65], 0.006, HALF, MORRIS_SHARE],
  ],
  (temperatureC) => PH.map((pH) => 100 * hypochlorousFraction({ pH, temperatureC }).fractionHocl),
)

const share = (pKa: number) => 1 / (1 + 10 ** (7.5 - pKa))
const PRINTED = 'half a last digit of the constant, 5e-5, is 2.9e-5 of a share near one half'

// biome-ignore format: a table, one row a line
hold<{ temperatureC: number; end: 'lower' | 'upper' }>(
  [
    ['highest constant at 0 °C', { temperatureC: 0, end: 'upper' }, share(7.8251), 3e-5, PRINTED, MORRIS_SHARE],
    ['lowest constant at 0 °C', { temperatureC: 0, end: 'lower' }, share(7.7513), 3e-5, PRINTED, BENJAMIN],
    ['lowest constant at 10 °C', { temperatureC: 10, end: 'lower' }, share(7.6581), 3e-5, PRINTED, BENJAMIN],
    ['highest constant at 20 °C', { temperatureC: 20, end: 'upper' }, share(7.6002), 3e-5, PRINTED, PLANT],
    ['lowest constant at 20 °C', { temperatureC: 20, end: 'lower' }, share(7.5712), 3e-5, PRINTED, BENJAMIN],
    ['highest constant at 35 °C', { temperatureC: 35, end: 'upper' }, share(7.4805), 3e-5, PRINTED, PLANT],
    ['lowest constant at 35 °C', { temperatureC: 35, end: 'lower' }, share(7.4515), 3e-5, PRINTED, BENJAMIN],
    ['lowest constant at 60 °C', { temperatureC: 60, end: 'lower' }, share(7.276), 3e-5, PRINTED, BENJAMIN],
  ],
  ({ temperatureC, end }) => hypochlorousFraction({ pH: 7.5, temperatureC }).fractionRange[end],
)

hold<{ pH: number; temperatureC: number }>(
  oracle.hypochlorous.map(({ pH, celsius, share: want }) => [
    `share at pH ${pH} and ${celsius} °C`,
    { pH, temperatureC: celsius },
    want,
    { share: 1e-9 },
    'the same constant: rounding',
    SCIPY,
  ]),
  (input) => hypochlorousFraction(input).fractionHocl,
)

test('trap: the curve of Morris turns at 71 °C, so it is not followed there, and it says so above 35 °C', () => {
  expect(() => morrisPKa(61)).toThrow(RangeError)
  expect(morrisPKa(60)).toBeLessThan(morrisPKa(59))
  expect(hypochlorousFraction({ pH: 7, temperatureC: 50 }).basis).toContain('drawn on beyond')
})
