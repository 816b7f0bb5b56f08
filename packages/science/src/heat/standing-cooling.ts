import * as z from 'zod'
import { defineCalculation } from '../catalogue/descriptor.ts'
import { field, measure, refuse } from '../catalogue/fields.ts'
import { sourcesOf } from '../catalogue/sources.ts'
import { liquidWaterRangeC, waterDensityKgPerM3, waterHeatCapacityJPerKgK } from '../water/liquid-water.ts'
import { type Approach, spanToReach, temperatureAfter } from './approach.ts'
import { ambientField, buildShape, type PipeBuild, refuseImpossiblePipe, solidHeatJPerMK } from './pipe-build.ts'
import { pipeHeatLoss } from './pipe-heat-loss.ts'
import type { AirRegime } from './surface-film.ts'

export interface StandingCoolingInput extends Omit<PipeBuild, 'wallMm'> {
  boreMm: number
  startC: number
  ambientC: number
  minutes: number
  thresholdsC: number[]
}

export interface StandingCooling {
  temperatureC: number
  minutesToC: { temperatureC: number; minutes?: number }[]
  heatJPerMK: number
  lossAtStartWPerMK: number
  surfaceAtStartC: number
  regimeAtStart: AirRegime
  regimeAtEnd: AirRegime
  minutesToHalfDifference?: number
}

const SECONDS_PER_MINUTE = 60
const MM_PER_M = 1000

/**
 * The temperature of water left standing in a pipe (°C), and how long it takes to reach given temperatures (minutes).
 * Wanted to tell how long after use hot water lies in the range where Legionella grows, and when cold water gets warm.
 *
 * C dT/dt = −U(T) (T − Tₐ), C = π/4 d² ρ cp + wall + half the insulation; U(T) as in pipe-heat-loss, anew at each temperature.
 *
 * Special cases: 0 minutes, or air as warm as the water, leave the start. A temperature that is never reached has no
 * minutes. Colder water warms by the same equation.
 *
 * @param input bore and build of the pipe (mm, W/(m K)), water and air 0 to 100 and 0 to 80 °C, minutes at least 0
 * @throws RangeError when the material is unknown
 * @source plug-flow-heat-balance
 * @source churchill-chu-1975
 * @source iapws-sr6-08
 * @example
 * standingCooling({ boreMm: 20, outsideDiameterMm: 22, material: 'copper', insulationMm: 0, surfaceEmissivity: 0.9, startC: 60, ambientC: 22, minutes: 0, thresholdsC: [20] }).minutesToC[0].minutes // => undefined
 */
export function standingCooling(input: StandingCoolingInput): StandingCooling {
  const { startC, ambientC, minutes, thresholdsC } = input
  const pipe: PipeBuild = { ...input, wallMm: (input.outsideDiameterMm - input.boreMm) / 2 }
  const solid = solidHeatJPerMK(pipe)
  const areaM2 = (Math.PI / 4) * (input.boreMm / MM_PER_M) ** 2
  const heatAt = (waterC: number) => areaM2 * waterDensityKgPerM3(waterC) * waterHeatCapacityJPerKgK(waterC) + solid
  const lossAt = (waterC: number) => pipeHeatLoss({ ...pipe, waterC, ambientC })
  const approach: Approach = {
    startC,
    ambientC,
    rate: (waterC) => (lossAt(waterC).overallWPerMK * SECONDS_PER_MINUTE) / heatAt(waterC),
  }
  const half = spanToReach(approach, (startC + ambientC) / 2)
  const temperatureC = temperatureAfter(approach, minutes)
  const atStart = lossAt(startC)
  return {
    temperatureC,
    minutesToC: thresholdsC.map((wantedC) => threshold(approach, wantedC)),
    heatJPerMK: heatAt(startC),
    lossAtStartWPerMK: atStart.overallWPerMK,
    surfaceAtStartC: atStart.surfaceC,
    regimeAtStart: atStart.regime,
    regimeAtEnd: lossAt(temperatureC).regime,
    ...(half === undefined || half === 0 ? {} : { minutesToHalfDifference: half }),
  }
}

function threshold(approach: Approach, temperatureC: number): { temperatureC: number; minutes?: number } {
  const minutes = spanToReach(approach, temperatureC)
  return minutes === undefined ? { temperatureC } : { temperatureC, minutes }
}

const WIDEST_BORE_MM = 3000
const MOST_THRESHOLDS = 100

const { insulationConductivityWPerMK, material, outsideDiameterMm, insulationMm, surfaceEmissivity, uprightHeightM } =
  buildShape()
const regime = z.enum(['still', 'laminar', 'turbulent'])
const waterField = (what: string) =>
  field(z.number().min(liquidWaterRangeC.lower).max(liquidWaterRangeC.upper), { what, unit: '°C' })

const input = z
  .strictObject({
    boreMm: field(z.number().min(0.5).max(WIDEST_BORE_MM), { what: 'inside diameter of the pipe', unit: 'mm' }),
    outsideDiameterMm,
    material,
    insulationMm,
    insulationConductivityWPerMK,
    surfaceEmissivity,
    uprightHeightM,
    startC: waterField('temperature of the water when it comes to rest'),
    ambientC: ambientField(0),
    minutes: field(measure.amount(), { what: 'how long the water stands', unit: 'min' }),
    thresholdsC: field(
      z.array(z.number().min(liquidWaterRangeC.lower).max(liquidWaterRangeC.upper)).max(MOST_THRESHOLDS).default([]),
      { what: 'temperatures to time, such as 50, 45 and 25', unit: '°C' },
    ),
  })
  .superRefine((pipe, context) => {
    refuseImpossiblePipe(pipe, context)
    if (pipe.outsideDiameterMm > pipe.boreMm) return
    const wanted = { expected: `more than the bore, ${pipe.boreMm}`, received: String(pipe.outsideDiameterMm) }
    context.addIssue(refuse(['outsideDiameterMm'], wanted))
  })

export const standingCoolingCalculation = defineCalculation({
  id: 'standing-cooling',
  title: 'Cooling of standing water',
  purpose:
    'How fast hot water left in a pipe cools, or cold water warms, towards the air; and when it passes a temperature.',
  formula: {
    text: 'C · dT/dt = −U(T) · (T − Ta); C = π/4·d²·ρ·cp + wall + half the insulation; U(T) as for the heat lost by a pipe',
    symbols: {
      T: 'temperatureC',
      Ta: 'ambientC',
      t: 'minutes',
      d: 'boreMm',
      C: 'heatJPerMK',
      U: 'loss coefficient at each temperature (W/(m K))',
    },
  },
  input,
  output: z.object({
    temperatureC: field(z.number(), { what: 'temperature at the end of the time given', unit: '°C' }),
    minutesToC: field(
      z.array(
        z.object({
          temperatureC: field(z.number(), { what: 'temperature asked for', unit: '°C' }),
          minutes: field(z.number().optional(), {
            what: 'time until the water has it; left out where it never does',
            unit: 'min',
          }),
        }),
      ),
      { what: 'when each temperature asked for is reached', unit: 'min' },
    ),
    heatJPerMK: field(z.number(), {
      what: 'heat held by a metre of water, wall and insulation, at the start',
      unit: 'J/(m K)',
    }),
    lossAtStartWPerMK: field(z.number(), { what: 'loss coefficient at the start', unit: 'W/(m K)' }),
    surfaceAtStartC: field(z.number(), { what: 'temperature of the outermost surface at the start', unit: '°C' }),
    regimeAtStart: field(regime, { what: 'how the air moves along the surface at the start' }),
    regimeAtEnd: field(regime, { what: 'how it moves at the end' }),
    minutesToHalfDifference: field(z.number().optional(), {
      what: 'time in which the difference from the air halves; left out where there is none',
      unit: 'min',
    }),
  }),
  sources: sourcesOf(
    'plug-flow-heat-balance',
    'churchill-chu-1975',
    'popiel-2007',
    'en-iso-12241',
    'iapws-sr6-08',
    'us-standard-atmosphere-1976',
    'en-12524',
    'plastic-pipe-properties',
    'lagging-properties',
    'surface-emissivities',
  ),
  cautions: [
    'One pipe full of water in still air. A branch that rises from a hot loop stays warm by convection, and ends and supports cool faster.',
    'Theory: measured curves were not available to hold it against. Measure at the outlet before you conclude.',
    'The film of the water inside is left out: a bare pipe cools up to about a tenth slower than shown.',
    'Insulation delays but does not prevent: in a warm shaft cold water gets warm all the same.',
  ],
  example: {
    input: {
      boreMm: 20,
      outsideDiameterMm: 22,
      insulationMm: 20,
      insulationConductivityWPerMK: 0.035,
      startC: 60,
      ambientC: 22,
      minutes: 60,
      thresholdsC: [50, 45, 25, 20],
    },
    output: {
      temperatureC: 46.79701289197475,
      minutesToC: [
        {
          temperatureC: 50,
          minutes: 42.87055488355188,
        },
        {
          temperatureC: 45,
          minutes: 70.6271542775993,
        },
        {
          temperatureC: 25,
          minutes: 362.5721626150853,
        },
        {
          temperatureC: 20,
        },
      ],
      heatJPerMK: 1581.7264469377183,
      lossAtStartWPerMK: 0.1884382983796613,
      surfaceAtStartC: 26.26297141008178,
      regimeAtStart: 'laminar',
      regimeAtEnd: 'laminar',
      minutesToHalfDifference: 97.67906601928209,
    },
  },
  run: standingCooling,
})
