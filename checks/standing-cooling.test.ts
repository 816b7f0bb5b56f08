// Cooling and warming of standing water, minutes; theory throughout, no measured curve was at hand.
import { standingCooling } from '@rillmark/science/heat/standing-cooling.ts'
import { type From, hold } from './rows.ts'

const MARCH: From =
  'computed: independent march, bare film anew each step, wall and half the insulation counted, no film inside'
const HEAT: From = 'computed: π/4 d² of water at 60 °C and copper of 8900 kg/m³ and 380 J/(kg K)'
const SIMPLE: From = 'computed: 2.11 h ln(40/5), a coefficient of 0.2 W/(m K) all the way'

const PIPES = {
  'copper 15x1': { material: 'copper', boreMm: 13, outsideDiameterMm: 15 },
  'copper 22x1': { material: 'copper', boreMm: 20, outsideDiameterMm: 22 },
  'copper 28x1.5': { material: 'copper', boreMm: 25, outsideDiameterMm: 28 },
  'PEX 16x2.0': { material: 'pex', boreMm: 12, outsideDiameterMm: 16 },
  'PEX 20x2.8': { material: 'pex', boreMm: 14.4, outsideDiameterMm: 20 },
  'PP-R 25x3.5': { material: 'pp-r', boreMm: 18, outsideDiameterMm: 25 },
  'steel 21.3x2.65': { material: 'steel', boreMm: 16, outsideDiameterMm: 21.3 },
}
const CONDUCTIVITY: Record<number, number> = { 0: 0.04, 9: 0.04, 13: 0.04, 20: 0.035 }
const HOT = { startC: 60, ambientC: 22, thresholdsC: [55, 50, 45, 40, 37, 30, 25] }
const COLD = { startC: 12, ambientC: 28, thresholdsC: [15, 20, 25] }

type Stand = readonly [pipe: keyof typeof PIPES, insulationMm: number, surfaceEmissivity?: number]
type Spell = { startC: number; ambientC: number; thresholdsC: number[] }

function minutes([pipe, insulationMm, surfaceEmissivity = 0.9]: Stand, spell: Spell) {
  const coat = { insulationMm, insulationConductivityWPerMK: CONDUCTIVITY[insulationMm], surfaceEmissivity }
  return standingCooling({ minutes: 0, ...coat, ...PIPES[pipe], ...spell }).minutesToC.map((each) => each.minutes)
}

const SHARE = { share: 0.01, and: 0.06 }
const WHY = 'half a last printed digit, and 1 % for the heat of water taken at another temperature'

// biome-ignore format: a table, one row a line
hold<Stand>(
  [
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
  ],
  (pipe) => minutes(pipe, HOT),
)

// biome-ignore format: a table, one row a line
hold<Stand>(
  [
    ['copper 15x1 bare, from 12 to 15, 20, 25 in 28 °C', ['copper 15x1', 0], [4.5, 15.2, 38.5], SHARE, WHY, MARCH],
    ['copper 15x1, 9 mm', ['copper 15x1', 9], [10.5, 35.1, 85.5], SHARE, WHY, MARCH],
    ['copper 15x1, 13 mm', ['copper 15x1', 13], [12.4, 41.6, 101], SHARE, WHY, MARCH],
    ['copper 15x1, 20 mm', ['copper 15x1', 20], [17.4, 58.2, 141], SHARE, WHY, MARCH],
    ['copper 22x1 bare', ['copper 22x1', 0], [7.1, 24.1, 60.9], SHARE, WHY, MARCH],
    ['copper 22x1, 9 mm', ['copper 22x1', 9], [17.6, 59.1, 144], SHARE, WHY, MARCH],
    ['copper 22x1, 13 mm', ['copper 22x1', 13], [21.1, 70.7, 172], SHARE, WHY, MARCH],
    ['copper 22x1, 20 mm', ['copper 22x1', 20], [29.7, 99.2, 240], SHARE, WHY, MARCH],
    ['copper 28x1.5 bare', ['copper 28x1.5', 0], [9.2, 31.5, 79.6], SHARE, WHY, MARCH],
    ['copper 28x1.5, 9 mm', ['copper 28x1.5', 9], [23.9, 80.0, 195], SHARE, WHY, MARCH],
    ['copper 28x1.5, 13 mm', ['copper 28x1.5', 13], [28.8, 96.4, 234], SHARE, WHY, MARCH],
    ['copper 28x1.5, 20 mm', ['copper 28x1.5', 20], [40.8, 136, 330], SHARE, WHY, MARCH],
    ['PEX 16x2.0 bare', ['PEX 16x2.0', 0], [4.2, 14.2, 35.7], SHARE, WHY, MARCH],
    ['PEX 16x2.0, 9 mm', ['PEX 16x2.0', 9], [9.5, 31.7, 77.2], SHARE, WHY, MARCH],
    ['PEX 16x2.0, 13 mm', ['PEX 16x2.0', 13], [11.2, 37.5, 91.1], SHARE, WHY, MARCH],
    ['PEX 16x2.0, 20 mm', ['PEX 16x2.0', 20], [15.7, 52.5, 127], SHARE, WHY, MARCH],
    ['PEX 20x2.8 bare', ['PEX 20x2.8', 0], [5.4, 18.2, 45.9], SHARE, WHY, MARCH],
    ['PEX 20x2.8, 9 mm', ['PEX 20x2.8', 9], [12.4, 41.6, 101], SHARE, WHY, MARCH],
    ['PEX 20x2.8, 13 mm', ['PEX 20x2.8', 13], [14.8, 49.4, 120], SHARE, WHY, MARCH],
    ['PEX 20x2.8, 20 mm', ['PEX 20x2.8', 20], [20.7, 69.1, 167], SHARE, WHY, MARCH],
  ],
  (pipe) => minutes(pipe, COLD),
)

const plain = { ...PIPES['copper 22x1'], insulationMm: 0, surfaceEmissivity: 0.9, startC: 60, ambientC: 20, minutes: 0 }

// biome-ignore format: a table, one row a line
hold<{ thresholdsC: number[] }>(
  [['22x1 copper full of water, J/(m K)', { thresholdsC: [] }, 1519, { share: 0.01 }, 'density and heat of copper differ between sources', HEAT]],
  (odd) => standingCooling({ ...plain, ...odd }).heatJPerMK,
)

// biome-ignore format: a table, one row a line
hold<{ insulationMm: number }>(
  [['22x1 with U near 0.2, 60 to 25 in 20 °C, hours', { insulationMm: 18 }, 4.39, { share: 0.15 }, 'U is 0.2 at the start and falls as the pipe cools; the insulation adds heat', SIMPLE]],
  (coat) => (standingCooling({ ...plain, ...coat, insulationConductivityWPerMK: 0.035, thresholdsC: [25] }).minutesToC[0]?.minutes ?? 0) / 60,
)
