// The ranges tried where a description is silent, held against what was published of the same figures.
import filledIn from '@rillmark/reference/conditions/filled-in.json' with { type: 'json' }
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

const PRINTED = 'rounded to two digits'
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

/** Greatest standing loss of EU label class C, W/K at 45 K (memory: regulation 812/2013). */
const classCWPerK = (volumeL: number): number => (16.66 + 8.33 * volumeL ** 0.4) / 45

test('what is tried of the heat lost by storage heaters covers the ones that were published', () => {
  const { smallHeaterLoss, largeHeaterLoss } = ranges
  const timesClassC = [
    smallHeaterLoss.lower / classCWPerK(80),
    smallHeaterLoss.upper / classCWPerK(155),
    largeHeaterLoss.lower / classCWPerK(206),
    largeHeaterLoss.upper / classCWPerK(206),
  ]
  expect(
    covers(filledIn.figures.heaterLoss, { lower: Math.min(...timesClassC), upper: Math.max(...timesClassC) }),
  ).toBe(true)
})

/** W/m through 40 mm of clean insulation by the textbook: 0.040 W/(m K), film 8 W/(m² K), water 57.5 °C, air 21 °C. */
function cleanLoss(outsideMm: number): number {
  const [inner, outer] = [outsideMm / 2000, outsideMm / 2000 + 0.04]
  return (57.5 - 21) / (Math.log(outer / inner) / (2 * Math.PI * 0.04) + 1 / (2 * Math.PI * outer * 8))
}

test('trap: pipes of basements lose more than the formula gives for clean insulation of any of their sizes (seen: Hamburg 2021)', () => {
  const most = Math.max(...[22, 28, 35, 42, 54].map(cleanLoss))
  expect(ranges.shaftLoss.upper / most).toBeGreaterThanOrEqual(ranges.insulationInService.lower)
})
