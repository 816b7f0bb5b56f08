// How long standing water takes to cool, for the calculation of one pipe and for the simulation alike.
import type { From, Row } from './rows.ts'

export const MARCH: From =
  'computed: independent march, bare film anew each step, wall and half the insulation counted, no film inside'
export const PIPES = {
  'copper 15x1': { material: 'copper', boreMm: 13, outsideDiameterMm: 15 },
  'copper 22x1': { material: 'copper', boreMm: 20, outsideDiameterMm: 22 },
  'copper 28x1.5': { material: 'copper', boreMm: 25, outsideDiameterMm: 28 },
  'PEX 16x2.0': { material: 'pex', boreMm: 12, outsideDiameterMm: 16 },
  'PEX 20x2.8': { material: 'pex', boreMm: 14.4, outsideDiameterMm: 20 },
  'PP-R 25x3.5': { material: 'pp-r', boreMm: 18, outsideDiameterMm: 25 },
  'steel 21.3x2.65': { material: 'steel', boreMm: 16, outsideDiameterMm: 21.3 },
}
/** By thickness of the insulation, mm. */
export const CONDUCTIVITY_W_PER_M_K: Record<number, number> = { 0: 0.04, 9: 0.04, 13: 0.04, 20: 0.035 }
export const THRESHOLDS_C = [55, 50, 45, 40, 37, 30, 25] as const

export type Stand = readonly [pipe: keyof typeof PIPES, insulationMm: number, surfaceEmissivity?: number]

export const SHARE = { share: 0.01, and: 0.06 }
export const WHY = 'half a last printed digit, and 1 % for the heat of water taken at another temperature'

/** Minutes from 60 °C in air of 22 °C to each of `THRESHOLDS_C`. */
// biome-ignore format: a table, one row a line
export const MINUTES_FROM_60_C: readonly Row<Stand, readonly number[]>[] = [
  ['copper 15x1 bare, from 60 to 55, 50, 45, 40, 37, 30, 25 in 22 °C', ['copper 15x1', 0], [2.5, 5.4, 9.1, 13.9, 17.6, 31.1, 54.4], SHARE, WHY, MARCH],
  ['copper 15x1, 13 mm', ['copper 15x1', 13], [8.2, 17.8, 29.4, 43.9, 54.8, 92.5, 152], SHARE, WHY, MARCH],
  ['copper 15x1, 20 mm', ['copper 15x1', 20], [11.6, 25.2, 41.5, 61.9, 77.1, 130, 213], SHARE, WHY, MARCH],
  ['copper 22x1 bare', ['copper 22x1', 0], [3.9, 8.5, 14.3, 21.9, 27.7, 49.0, 85.9], SHARE, WHY, MARCH],
  ['trap: copper 22x1 bare and bright takes twice as long', ['copper 22x1', 0, 0.05], [7.0, 15.5, 26.0, 39.9, 50.8, 91.9, 169], SHARE, WHY, MARCH],
  ['copper 22x1, 13 mm', ['copper 22x1', 13], [13.9, 30.2, 49.9, 74.5, 92.9, 157, 259], SHARE, WHY, MARCH],
  ['copper 22x1, 20 mm', ['copper 22x1', 20], [19.8, 42.9, 70.6, 105, 131, 221, 363], SHARE, WHY, MARCH],
  ['copper 28x1.5 bare', ['copper 28x1.5', 0], [5.1, 11.2, 18.7, 28.5, 36.1, 63.9, 112], SHARE, WHY, MARCH],
  ['copper 28x1.5, 20 mm', ['copper 28x1.5', 20], [27.1, 58.8, 97.0, 145, 180, 304, 498], SHARE, WHY, MARCH],
  ['PEX 16x2.0 bare', ['PEX 16x2.0', 0], [2.4, 5.2, 8.6, 13.1, 16.6, 29.2, 50.8], SHARE, WHY, MARCH],
  ['PEX 16x2.0, 13 mm', ['PEX 16x2.0', 13], [7.4, 16.1, 26.6, 39.7, 49.5, 83.5, 137], SHARE, WHY, MARCH],
  ['PEX 20x2.8 bare', ['PEX 20x2.8', 0], [3.1, 6.7, 11.2, 17.0, 21.5, 37.7, 65.5], SHARE, WHY, MARCH],
  ['PEX 20x2.8, 20 mm', ['PEX 20x2.8', 20], [13.8, 29.9, 49.3, 73.5, 91.5, 154, 253], SHARE, WHY, MARCH],
  ['PP-R 25x3.5 bare', ['PP-R 25x3.5', 0], [4.2, 9.3, 15.5, 23.4, 29.5, 51.6, 89.1], SHARE, WHY, MARCH],
  ['steel 21.3x2.65 bare', ['steel 21.3x2.65', 0], [3.6, 8.0, 13.4, 20.3, 25.7, 45.5, 79.8], SHARE, WHY, MARCH],
]
