// Published and computed figures of the decay of a residual, for the calculation of one pipe and for the tables of the simulation alike.
import type { From, Row } from './rows.ts'

export const FIRST_ORDER: From = 'computed: first-order decay, C = C0 exp(-kt)'
export const KOECHLING: From =
  'computed: Koechling 1998, 1.1 for each degree (factor seen, as cited in the EPANET 2.2 manual)'
const ARRHENIUS: From = 'computed: exp[-E/R (1/T - 1/293.15)]'
export const ENGINE: From =
  'computed: EPANET 2.3.5, 1 s quality step, and the formulas of the EPANET 2.2 manual, chapter 12 (seen)'
export const MANUAL: From = 'computed: formulas of the EPANET 2.2 manual, chapter 12 (seen), diffusivity 1.2077e-9 m²/s'
export const PRINTED = 'half a last printed digit'
const LAST = 'half a last digit of the third or fourth printed'
export const THREE_DIGITS = 'printed to three digits'
export const VISCOSITY =
  'the engine takes a viscosity of 1.0219 mm²/s, water has 1.0034: up to 0.1 % of the Sherwood number'

/** Input: bulk decay per day. Want: the share left after 8 and 24 h. */
// biome-ignore format: a table, one row a line
export const LEFT_AFTER_8_AND_24_H: readonly Row<number, readonly number[]>[] = [
  ['0.05 per day: left after 8 and 24 h', 0.05, [0.9835, 0.9512], 6e-5, PRINTED, FIRST_ORDER],
  ['0.1 per day: left after 8 and 24 h', 0.1, [0.9672, 0.9048], 6e-5, PRINTED, FIRST_ORDER],
  ['0.25 per day: left after 8 and 24 h', 0.25, [0.92, 0.7788], 6e-5, PRINTED, FIRST_ORDER],
  ['0.5 per day: left after 8 and 24 h', 0.5, [0.8465, 0.6065], 6e-5, PRINTED, FIRST_ORDER],
  ['1 per day: left after 8 and 24 h', 1, [0.7165, 0.3679], 6e-5, PRINTED, FIRST_ORDER],
  ['2 per day: left after 8 and 24 h', 2, [0.5134, 0.1353], 6e-5, PRINTED, FIRST_ORDER],
  ['5 per day: left after 8 and 24 h', 5, [0.1889, 0.0067], 6e-5, PRINTED, FIRST_ORDER],
]

export const WARMTH_C = [5, 10, 15, 20, 25, 30, 40, 50, 60]

/** Input: activation energy, kJ/mol, or none. Want: how many times the rate at 20 °C, at each of `WARMTH_C`. */
// biome-ignore format: a table, one row a line
export const TIMES_THE_RATE_AT_20_C: readonly Row<number | undefined, readonly number[]>[] = [
  ['40 kJ/mol', 40, [0.413, 0.56, 0.752, 1, 1.317, 1.718, 2.852, 4.588, 7.174], { share: 2e-3 }, LAST, ARRHENIUS],
  ['55 kJ/mol', 55, [0.296, 0.451, 0.676, 1, 1.46, 2.105, 4.226, 8.124, 15.02], { share: 2e-3 }, LAST, ARRHENIUS],
  ['70.4 kJ/mol', 70.4, [0.211, 0.361, 0.606, 1, 1.623, 2.593, 6.326, 14.61, 32.07], { share: 2e-3 }, LAST, ARRHENIUS],
  ['1.1 for each degree', undefined, [0.239, 0.386, 0.621, 1, 1.611, 2.594, 6.727, 17.45, 45.26], { share: 2e-3 }, LAST, KOECHLING],
]

/** Input: bulk decay per day and the wall's constant in m/day. Want: both together, per day, in 50 m of 13 mm at 0.02 L/s and 20 °C. */
// biome-ignore format: a table, one row a line
export const OVERALL_PER_DAY: readonly Row<{ bulkPerDay: number; wallMPerDay: number }>[] = [
  ['13 mm, 50 m, 0.02 L/s, bulk alone: per day', { bulkPerDay: 1, wallMPerDay: 0 }, 1, { share: 1e-12 }, 'no film in it', ENGINE],
  ['the same, bulk and wall', { bulkPerDay: 1, wallMPerDay: 0.3 }, 23.866, { share: 1e-3 }, VISCOSITY, ENGINE],
  ['the same, wall limited by transport', { bulkPerDay: 0, wallMPerDay: 100 }, 30.366, { share: 1e-3 }, VISCOSITY, ENGINE],
]

export const BORES_MM = [10, 13, 20, 26]

/** Input: Sherwood number of standing water. Want: what a wall that takes all takes per day, in each of `BORES_MM` at 20 °C. */
// biome-ignore format: a table, one row a line
export const STANDING_PER_DAY: readonly Row<number, readonly number[]>[] = [
  ['trap: standing, Sherwood 3.65, bores of 10 to 26 mm: per day', 3.65, [15.24, 9.02, 3.81, 2.25], { share: 2e-3 }, THREE_DIGITS, MANUAL],
  ['trap: standing, Sherwood 2, bores of 10 to 26 mm: per day', 2, [8.35, 4.94, 2.09, 1.24], { share: 5e-3 }, `${THREE_DIGITS}; the last is 1.235 and was rounded up`, MANUAL],
]
