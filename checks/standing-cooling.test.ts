// Cooling and warming of standing water, minutes; theory throughout, no measured curve was at hand.
import { standingCooling } from '@rillmark/science/heat/standing-cooling.ts'
import { type From, hold } from './rows.ts'
import {
  CONDUCTIVITY_W_PER_M_K,
  MARCH,
  MINUTES_FROM_60_C,
  PIPES,
  SHARE,
  type Stand,
  THRESHOLDS_C,
  WHY,
} from './standing-rows.ts'

const HEAT: From = 'computed: π/4 d² of water at 60 °C and copper of 8900 kg/m³ and 380 J/(kg K)'
const SIMPLE: From = 'computed: 2.11 h ln(40/5), a coefficient of 0.2 W/(m K) all the way'

const HOT = { startC: 60, ambientC: 22, thresholdsC: [...THRESHOLDS_C] }
const COLD = { startC: 12, ambientC: 28, thresholdsC: [15, 20, 25] }

type Spell = { startC: number; ambientC: number; thresholdsC: number[] }

function minutes([pipe, insulationMm, surfaceEmissivity = 0.9]: Stand, spell: Spell) {
  const coat = { insulationMm, insulationConductivityWPerMK: CONDUCTIVITY_W_PER_M_K[insulationMm], surfaceEmissivity }
  return standingCooling({ minutes: 0, ...coat, ...PIPES[pipe], ...spell }).minutesToC.map((each) => each.minutes)
}

hold(MINUTES_FROM_60_C, (pipe) => minutes(pipe, HOT))

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
