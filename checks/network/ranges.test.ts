// The ranges tried where a description is silent, held against what was published of the same figures.
import filledIn from '@rillmark/reference/conditions/filled-in.json' with { type: 'json' }
import hydraulics from '@rillmark/reference/network/hydraulics.json' with { type: 'json' }
import published from '@rillmark/reference/network/ranges.json' with { type: 'json' }
import { usualDecay } from '@rillmark/science/network/usual-decay.ts'
import { expect, test } from 'vitest'
import { type From, hold } from '../rows.ts'

const { ranges } = published
const covers = (wide: { lower: number; upper: number }, narrow: { lower: number; upper: number }) =>
  wide.lower <= narrow.lower && wide.upper >= narrow.upper

test('what is tried covers what was published of shaft air and of insulation', () => {
  expect(covers(filledIn.figures.ambientC, ranges.shaftAirC)).toBe(true)
  expect(covers(filledIn.figures.insulationConductivityWPerMK, ranges.insulationConductivity)).toBe(true)
  expect(covers(filledIn.guessed.insulationConductivityWPerMK, ranges.insulationInService)).toBe(true)
})

test('the usual bulk decay of chlorine covers the pilot loop', () => {
  const usual = usualDecay('free-chlorine')?.bulkPerHour ?? { lower: Number.NaN, upper: Number.NaN }
  expect(covers(usual, ranges.chlorineBulk)).toBe(true)
})

const MANUAL: From = 'computed: roughness of the EPANET 2.2 manual in thousandths of a foot (seen)'
const PRINTED = 'rounded to two digits'

// biome-ignore format: a table, one row a line
hold<string>(
  [
    ['plastic: 0.005 thousandths of a foot', 'plastic', 0.005 * 0.3048, { share: 0.02 }, PRINTED, MANUAL],
    ['galvanised steel: 0.5 thousandths of a foot', 'galvanised', 0.5 * 0.3048, { share: 0.02 }, PRINTED, MANUAL],
    ['cast iron: 0.85 thousandths of a foot', 'cast-iron', 0.85 * 0.3048, { share: 0.02 }, PRINTED, MANUAL],
    ['steel: 0.15 thousandths of a foot', 'steel', 0.15 * 0.3048, { share: 0.02 }, PRINTED, MANUAL],
  ],
  (id) => hydraulics.roughness.find((each) => each.id === id)?.value,
)

const HEATERS: From =
  'computed: standing loss of 0.55 and 1.05 kWh a day at 45 K (Wh per litre and day seen, manualslib.de 41838)'

// biome-ignore format: a table, one row a line
hold<'lower' | 'upper'>(
  [
    ['heater of 80 L, W/K', 'lower', (6.88 * 80) / 24 / 45, 0.005, PRINTED, HEATERS],
    ['heater of 155 L, W/K', 'upper', (6.77 * 155) / 24 / 45, 0.005, PRINTED, HEATERS],
  ],
  (end) => ranges.smallHeaterLoss[end],
)

/** W/m through 40 mm of clean insulation by the textbook: 0.040 W/(m K), film 8 W/(m² K), water 57.5 °C, air 21 °C. */
function cleanLoss(outsideMm: number): number {
  const [inner, outer] = [outsideMm / 2000, outsideMm / 2000 + 0.04]
  return (57.5 - 21) / (Math.log(outer / inner) / (2 * Math.PI * 0.04) + 1 / (2 * Math.PI * outer * 8))
}

test('trap: pipes of basements lose more than the formula gives for clean insulation of any of their sizes (seen: Hamburg 2021)', () => {
  const most = Math.max(...[22, 28, 35, 42, 54].map(cleanLoss))
  expect(ranges.shaftLoss.upper / most).toBeGreaterThanOrEqual(ranges.insulationInService.lower)
})
