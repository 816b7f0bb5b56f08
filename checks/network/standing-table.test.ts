// The cooling of standing water as the simulation does it, against the table that standing-cooling is held against: there the film of the
// air is worked out anew at every temperature, here one loss coefficient goes with a power of the difference.
import { pipeHeatLoss } from '@rillmark/science/heat/pipe-heat-loss.ts'
import { standingCooling } from '@rillmark/science/heat/standing-cooling.ts'
import { simulateDay } from '@rillmark/science/network/simulate.ts'
import { waterDensityKgPerM3, waterHeatCapacityJPerKgK } from '@rillmark/science/water/liquid-water.ts'
import { type From, hold } from '../rows.ts'
import { CONDUCTIVITY_W_PER_M_K, MARCH, MINUTES_FROM_60_C, PIPES, type Stand, THRESHOLDS_C } from '../standing-rows.ts'
import { build } from './build.ts'

const FEET: From = 'computed: 18 000 Btu/h / (500 x 10 °F) of a sizing question in print (its data seen)'

/** The two differences from the air through which the power goes, K. */
const NEAR_K = 10
const FAR_K = 38
const AMBIENT_C = 22

/** A pipe's loss in the terms of a network, from its build: the coefficient at 38 K and its power, from that at 10 K. */
function lossOf([name, insulationMm, surfaceEmissivity = 0.9]: Stand) {
  const pipe = PIPES[name]
  const coat = {
    insulationMm,
    insulationConductivityWPerMK: CONDUCTIVITY_W_PER_M_K[insulationMm] ?? 0.04,
    surfaceEmissivity,
    material: pipe.material,
    outsideDiameterMm: pipe.outsideDiameterMm,
    wallMm: (pipe.outsideDiameterMm - pipe.boreMm) / 2,
    ambientC: AMBIENT_C,
  }
  const at = (differenceK: number) => pipeHeatLoss({ ...coat, waterC: AMBIENT_C + differenceK }).overallWPerMK
  const { heatJPerMK } = standingCooling({
    ...coat,
    boreMm: pipe.boreMm,
    startC: 60,
    minutes: 0,
    thresholdsC: [],
  })
  const waterJPerMK = (Math.PI / 4) * (pipe.boreMm / 1000) ** 2 * waterDensityKgPerM3(60) * waterHeatCapacityJPerKgK(60)
  return {
    lossWPerMK: at(FAR_K),
    lossAtK: FAR_K,
    lossPower: Math.log(at(FAR_K) / at(NEAR_K)) / Math.log(FAR_K / NEAR_K),
    wallHeatJPerMK: heatJPerMK - waterJPerMK,
  }
}

const FLUSH_MINUTES = 10
const STEP_MINUTES = 0.5

/** Temperature, °C, of the drop drawn after so many minutes of rest behind a flush with water of 60 °C. */
function afterRest(stand: Stand, minutes: number): number {
  const plain = build({
    nodes: { entry: { source: { temperatureC: 60 } }, tap: 'junction' },
    pipes: { 'entry tap': { ...lossOf(stand), boreMm: PIPES[stand[0]].boreMm, lengthM: 0.5, ambientC: AMBIENT_C } },
    draws: {},
  })
  const flush = { startMinute: 0, minutes: FLUSH_MINUTES, flowLPerMin: 30 }
  const drop = {
    startMinute: FLUSH_MINUTES + Math.round(minutes / STEP_MINUTES) * STEP_MINUTES,
    minutes: STEP_MINUTES,
    flowLPerMin: 0.1,
  }
  const outlets = [flush, drop].map((draw) => ({ id: `${draw.startMinute}`, coldNode: 1, draws: [draw] }))
  const day = simulateDay({ ...plain, outlets }, { stepMinutes: STEP_MINUTES })
  return day.outlets[1]?.temperatureC.mean ?? Number.NaN
}

const TOLERANCE = 0.5
const WHY =
  'as much as 4 % of the time: one power for the film of the air, heat capacity taken once; minutes rounded to a half'
/** Of the table's temperatures those that take longer than a few steps. */
const WANTED = [40, 30, 25] as const

hold<readonly [pipe: Stand, minutes: readonly number[]]>(
  MINUTES_FROM_60_C.map(([name, stand, table]) => {
    const minutes = WANTED.map((wantedC) => table[THRESHOLDS_C.indexOf(wantedC)] ?? Number.NaN)
    return [`${name}: after ${minutes.join(', ')} minutes`, [stand, minutes], WANTED, TOLERANCE, WHY, MARCH]
  }),
  ([pipe, minutes]) => minutes.map((each) => afterRest(pipe, each)),
)

const FOOT = 0.3048
const W_PER_M = 0.96152
const FALLS = '500 Btu/h per gpm and °F is of cold water; the loss falls by up to a sixteenth as the water cools'

// biome-ignore format: a table, one row a line
hold<number>(
  [
    ['1000 ft losing 15 Btu/h a foot and 300 ft losing 10, at 3.6 gpm: 10 °F', 3.6, [10 / 1.8], { share: 0.08 }, FALLS, FEET],
    ['the same at 7.2 gpm: 5 °F', 7.2, [5 / 1.8], { share: 0.05 }, FALLS, FEET],
  ],
  (gpm) => {
    const lossAt = (btuPerFoot: number) => ({ lossWPerMK: (btuPerFoot * W_PER_M) / 40, ambientC: 20, boreMm: 20 })
    const network = build({
      nodes: { entry: { source: { temperatureC: 60 } }, far: 'junction', tap: 'junction' },
      pipes: {
        'entry far': { ...lossAt(15), lengthM: 1000 * FOOT },
        'far tap': { ...lossAt(10), lengthM: 300 * FOOT },
      },
      draws: { tap: gpm * 3.785411784 },
    })
    return [60 - (simulateDay(network).outlets[0]?.temperatureC.mean ?? Number.NaN)]
  },
)

// biome-ignore format: a table, one row a line
hold<number>(
  [
    ['heat given to the air by 10 m at 28.8 W/m', 28.8, 288, { share: 0.005 }, 'the water cools by 0.2 K on the way', 'seen: a rule of thumb in print, 30 Btu/h a foot; computed: 28.8 W/m'],
    ['by 10 m at 9.6 W/m', 9.6, 96, { share: 0.005 }, 'the water cools by 0.1 K on the way', 'seen: a rule of thumb in print, 10 Btu/h a foot; computed: 9.6 W/m'],
  ],
  (wattsPerM) => {
    const network = build({
      nodes: { entry: { source: { temperatureC: 60 } }, tap: 'junction' },
      pipes: { 'entry tap': { lossWPerMK: wattsPerM / 40, lengthM: 10, boreMm: 20 } },
      draws: { tap: 20 },
    })
    return simulateDay(network).pipes[0]?.heatLossW
  },
)
