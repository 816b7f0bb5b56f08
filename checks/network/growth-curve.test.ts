// The shape of growth over temperature, and how long it takes.
import table from '@rillmark/reference/network/growth.json' with { type: 'json' }
import { cardinalRate } from '@rillmark/science/network/cardinal-temperature.ts'
import { growthTemperatures } from '@rillmark/science/network/growth.ts'
import { growthAfter, makeKinetics, tabled } from '@rillmark/science/network/kinetics.ts'
import type { Chemistry } from '@rillmark/science/network/network.ts'
import { type From, hold } from '../rows.ts'

const MACROGROW: From =
  'seen: check values of the cardinal temperature model, drtreimer.com/macrogrow, T_lim (Rosso 1993)'
const ROSSO: From = 'computed: the formula of Rosso et al. 1993, in another language, to four digits'
const ARITHMETIC: From = 'computed: 24 h for a doubling at the best temperature, a tenfold rise is 3.322 doublings'
const PRINTED = 'half a last printed digit'
const PLANT = { minimumC: 5, optimumC: 20, maximumC: 30 }

// biome-ignore format: a table, one row a line
hold<number>(
  [
    ['5, 20 and 30 °C: 10 °C', 10, 0.33333333, 6e-9, PRINTED, MACROGROW],
    ['5, 20 and 30 °C: 15 °C', 15, 0.8, 6e-9, PRINTED, MACROGROW],
    ['5, 20 and 30 °C: 18 °C', 18, 0.96571429, 6e-9, PRINTED, MACROGROW],
    ['5, 20 and 30 °C: 19 °C', 19, 0.99126437, 6e-9, PRINTED, MACROGROW],
    ['5, 20 and 30 °C: 20 °C', 20, 1, 6e-9, PRINTED, MACROGROW],
    ['5, 20 and 30 °C: 21 °C', 21, 0.99096774, 6e-9, PRINTED, MACROGROW],
    ['5, 20 and 30 °C: 22 °C', 22, 0.9633333, 6e-8, 'printed to seven digits', MACROGROW],
    ['5, 20 and 30 °C: 25 °C', 25, 0.76190476, 6e-9, PRINTED, MACROGROW],
    ['5, 20 and 30 °C: 29 °C', 29, 0.19692308, 6e-9, PRINTED, MACROGROW],
  ],
  (temperatureC) => cardinalRate(temperatureC, PLANT),
)

const AT = [18, 20, 22, 25, 28, 30, 35, 37, 40, 42, 44, 45, 46, 48, 50]
const legionella = (minimumC: number, optimumC: number, maximumC: number) => ({ minimumC, optimumC, maximumC })

// biome-ignore format: a table, one row a line
hold<Parameters<typeof cardinalRate>[1]>(
  [
    ['the usual set, 18 to 50 °C', growthTemperatures('usual'), [0, 0, 0.0582, 0.2771, 0.5424, 0.7065, 0.9734, 1, 0.9358, 0.8178, 0.636, 0.5204, 0.3879, 0.0716, 0], 6e-5, PRINTED, ROSSO],
    ['20, 37 and 43 °C, 18 to 50 °C', legionella(20, 37, 43), [0, 0, 0.0279, 0.1634, 0.3842, 0.5582, 0.9454, 1, 0.8114, 0.3697, 0, 0, 0, 0, 0], 6e-5, PRINTED, ROSSO],
    ['the wide set, 18 to 50 °C', growthTemperatures('wide'), [0.011, 0.0854, 0.2059, 0.4255, 0.6461, 0.7752, 0.9798, 1, 0.9514, 0.8621, 0.7242, 0.6364, 0.5357, 0.2948, 0], 6e-5, PRINTED, ROSSO],
    ['20, 40 and 46 °C, 18 to 50 °C', legionella(20, 40, 46), [0, 0, 0.0182, 0.1094, 0.2667, 0.4, 0.7734, 0.9031, 1, 0.9308, 0.6545, 0.3906, 0, 0, 0], 6e-5, PRINTED, ROSSO],
  ],
  (set) => AT.map((temperatureC) => cardinalRate(temperatureC, set)),
)

// biome-ignore format: a table, one row a line
hold<{ set: 'usual' | 'wide'; at: number[] }>(
  [
    ['the usual set halves at', { set: 'usual', at: [27.5, 45.2] }, [0.5, 0.5], 0.012, 'the temperatures are printed to a tenth, and the curve falls by 0.12 a degree there', ROSSO],
    ['the wide set halves at', { set: 'wide', at: [26.0, 46.3] }, [0.5, 0.5], 0.012, 'the temperatures are printed to a tenth, and the curve falls by 0.11 a degree there', ROSSO],
  ],
  ({ set, at }) => at.map((temperatureC) => cardinalRate(temperatureC, growthTemperatures(set))),
)

const CLEAN: Chemistry = { disinfectant: 'none', bulkPerHour: 0, wallMPerHour: 0, referenceC: 20, standingSherwood: 2 }
const kinetics = makeKinetics(CLEAN)

// biome-ignore format: a table, one row a line
hold<number>(
  [
    ['25 °C: hours for a tenfold rise', 25, 288, 0.5, PRINTED, ARITHMETIC],
    ['30 °C: hours for a tenfold rise', 30, 113, 0.5, PRINTED, ARITHMETIC],
    ['37 °C: hours for a tenfold rise', 37, 79.7, 0.05, PRINTED, ARITHMETIC],
    ['42 °C: hours for a tenfold rise', 42, 97.5, 0.05, PRINTED, ARITHMETIC],
    ['45 °C: hours for a tenfold rise', 45, 153, 0.5, PRINTED, ARITHMETIC],
  ],
  (temperatureC) => Math.LN10 / (kinetics.growthPerHour * tabled(kinetics.favour, temperatureC)),
)

const MEANS: From = 'computed: mean of the curve over the band, by the same formula in another language'
const meanOver = ([from, to]: [number, number]) => {
  const steps = 2000
  const at = Array.from({ length: steps }, (_, i) => from + ((to - from) * (i + 0.5)) / steps)
  return at.reduce((sum, temperatureC) => sum + tabled(kinetics.favour, temperatureC), 0) / steps
}

// biome-ignore format: a table, one row a line
hold<[number, number]>(
  [
    ['mean over 22 to 30 °C', [22, 30], 0.37, 0.005, PRINTED, MEANS],
    ['mean over 30 to 40 °C', [30, 40], 0.92, 0.005, PRINTED, MEANS],
    ['mean over 40 to 50 °C', [40, 50], 0.48, 0.005, PRINTED, MEANS],
    ['mean over 50 to 58 °C', [50, 58], 0, 0.005, PRINTED, MEANS],
  ],
  meanOver,
)

const D60: From = 'seen: WHO 2007 and the pooled literature, a tenth left after 2 min at 60 °C'
const CUNLIFFE: From = 'seen: Cunliffe 1990, 99 % killed in 15 min by 1 mg/L of monochloramine'
const left = (of: { chemistry: Chemistry; hours: number; temperatureC: number; residualMgPerL: number }) =>
  growthAfter(makeKinetics(of.chemistry), { ...of, start: 1 })

// biome-ignore format: a table, one row a line
hold<Parameters<typeof left>[0]>(
  [
    ['6 min at 60 °C leave a thousandth', { chemistry: CLEAN, hours: 0.1, temperatureC: 60, residualMgPerL: 0 }, 1e-3, { share: 1e-9 }, 'the middle of six published values is theirs', D60],
    ['sheltered, monochloramine takes a hundred times as long: a hundredth left after 25 h', { chemistry: { ...CLEAN, disinfectant: 'chloramine' }, hours: (15 * table.figures.shelter.value) / 60, temperatureC: 10, residualMgPerL: 1 }, 1e-2, { share: 1e-9 }, 'nothing grows at 10 °C', CUNLIFFE],
  ],
  left,
)
