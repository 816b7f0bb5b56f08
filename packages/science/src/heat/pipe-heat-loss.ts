import * as z from 'zod'
import { defineCalculation } from '../catalogue/descriptor.ts'
import { field } from '../catalogue/fields.ts'
import { sourcesOf } from '../catalogue/sources.ts'
import { liquidWaterRangeC } from '../water/liquid-water.ts'
import {
  ambientField,
  buildShape,
  type PipeBuild,
  pipeMaterial,
  refuseImpossiblePipe,
  wallField,
} from './pipe-build.ts'
import { type AirRegime, type SurfaceFilm, surfaceFilm } from './surface-film.ts'

export interface PipeHeatLossInput extends PipeBuild {
  waterC: number
  ambientC: number
}

export interface PipeHeatLoss {
  wattsPerM: number
  overallWPerMK: number
  surfaceC: number
  regime: AirRegime
  rayleigh: number
  convectionWPerM2K: number
  radiationWPerM2K: number
}

const MM_PER_M = 1000

/**
 * What a pipe in still air loses (W per metre), its loss coefficient (W/(m K)) and its surface temperature (°C).
 * Wanted to tell what insulation and emissivity do to hot water on its way, and to cold water in a warm shaft.
 *
 * q = (T − Tₐ) / (R(wall) + R(insulation) + Rₒ); R = ln(r₂/r₁) / (2πk) for wall and insulation, Rₒ = 1 / (π D h) for the outer film,
 * h = convection + radiation at the surface temperature that makes all three carry the same heat.
 *
 * Special cases: water as warm as the air loses 0 W/m and its coefficient is the limit; colder water has a negative
 * loss, heat it takes up. The film of the water inside is left out: it is small beside the outer one, up to a tenth of the
 * resistance where water moves slowly in a bare pipe. An upright pipe, with a height, loses less than a level one.
 *
 * @param input build of the pipe (mm, W/(m K), emissivity 0 to 1), water 0 to 100 °C, air −40 to 80 °C
 * @throws RangeError when the material is unknown
 * @source churchill-chu-1975
 * @source popiel-2007
 * @source en-iso-12241
 * @source us-standard-atmosphere-1976
 * @example
 * pipeHeatLoss({ outsideDiameterMm: 54, wallMm: 0, material: 'copper', insulationMm: 0, surfaceEmissivity: 0.9, waterC: 20, ambientC: 20 }).wattsPerM // => 0
 */
export function pipeHeatLoss(input: PipeHeatLossInput): PipeHeatLoss {
  const { waterC, ambientC, surfaceEmissivity: emissivity, uprightHeightM } = input
  const diameterM = (input.outsideDiameterMm + 2 * input.insulationMm) / MM_PER_M
  const within = layersMKPerW(input)
  const filmAt = (surfaceC: number) => surfaceFilm({ diameterM, surfaceC, ambientC, emissivity, uprightHeightM })
  let surfaceC = waterC
  let film = filmAt(surfaceC)
  for (let step = 0; step < MOST_STEPS; step++) {
    const next = ambientC + (waterC - ambientC) * shareOutside({ within, film, diameterM })
    const moved = Math.abs(next - surfaceC)
    surfaceC = next
    film = filmAt(surfaceC)
    if (moved <= SETTLED_K) break
  }
  const overallWPerMK = 1 / (within + outside({ film, diameterM }))
  return { wattsPerM: overallWPerMK * (waterC - ambientC), overallWPerMK, surfaceC, ...film }
}

/** The film changes slowly with the surface temperature, so each step is at least some times closer than the last. */
const MOST_STEPS = 100
const SETTLED_K = 1e-11

/** Wall and insulation (m K / W). */
function layersMKPerW({
  outsideDiameterMm,
  wallMm,
  material,
  insulationMm,
  insulationConductivityWPerMK,
}: PipeBuild): number {
  const layer = (ratio: number, conductivity: number) => Math.log(ratio) / (2 * Math.PI * conductivity)
  const wall = layer(outsideDiameterMm / (outsideDiameterMm - 2 * wallMm), pipeMaterial(material).conductivityWPerMK)
  if (insulationMm === 0) return wall
  if (insulationConductivityWPerMK === undefined || !(insulationConductivityWPerMK > 0)) {
    throw new RangeError(
      `Cannot tell a heat loss because the insulation has no conductivity: got ${insulationConductivityWPerMK}`,
    )
  }
  return wall + layer((outsideDiameterMm + 2 * insulationMm) / outsideDiameterMm, insulationConductivityWPerMK)
}

function outside({ film, diameterM }: { film: SurfaceFilm; diameterM: number }): number {
  return 1 / (Math.PI * diameterM * (film.convectionWPerM2K + film.radiationWPerM2K))
}

function shareOutside({ within, ...at }: { within: number; film: SurfaceFilm; diameterM: number }): number {
  return outside(at) / (within + outside(at))
}

const LOWEST_AIR_C = -40

export const pipeHeatLossCalculation = defineCalculation({
  id: 'pipe-heat-loss',
  title: 'Heat lost by a pipe',
  purpose:
    'What a metre of pipe loses to the air around it, bare or insulated; or takes up, where the water is colder.',
  formula: {
    text: 'q = (T − Ta) / (Rw + Ri + 1/(π·D·h)); R = ln(r2/r1)/(2π·k); h = Nu·ka/D + ε·σ·(Ts² + Ta²)·(Ts + Ta); Nu by Churchill and Chu from Ra, for an upright pipe by Popiel, never above the level pipe',
    symbols: {
      q: 'wattsPerM',
      T: 'waterC',
      Ta: 'ambientC',
      Ts: 'surfaceC',
      Rw: 'resistance of the wall (m K/W)',
      Ri: 'resistance of the insulation (m K/W)',
      D: 'diameter over the insulation (m)',
      h: 'convection and radiation together (W/(m² K))',
      ε: 'surfaceEmissivity',
      Ra: 'rayleigh',
    },
  },
  input: z
    .strictObject({
      ...buildShape(),
      wallMm: wallField(),
      waterC: field(z.number().min(liquidWaterRangeC.lower).max(liquidWaterRangeC.upper), {
        what: 'temperature of the water',
        unit: '°C',
      }),
      ambientC: ambientField(LOWEST_AIR_C),
    })
    .superRefine(refuseImpossiblePipe),
  output: z.object({
    wattsPerM: field(z.number(), {
      what: 'heat lost by each metre; negative where the pipe takes heat up',
      unit: 'W/m',
    }),
    overallWPerMK: field(z.number(), { what: 'loss coefficient, per metre and kelvin', unit: 'W/(m K)' }),
    surfaceC: field(z.number(), { what: 'temperature of the outermost surface', unit: '°C' }),
    regime: field(z.enum(['still', 'laminar', 'turbulent']), { what: 'how the air moves along the surface' }),
    rayleigh: field(z.number(), { what: 'Rayleigh number of the air, by the diameter; by the height where upright' }),
    convectionWPerM2K: field(z.number(), { what: 'film coefficient of the moving air', unit: 'W/(m² K)' }),
    radiationWPerM2K: field(z.number(), { what: 'film coefficient of radiation', unit: 'W/(m² K)' }),
  }),
  sources: sourcesOf(
    'churchill-chu-1975',
    'churchill-chu-1975-plate',
    'popiel-2007',
    'en-iso-12241',
    'us-standard-atmosphere-1976',
    'surface-emissivities',
    'en-12524',
    'plastic-pipe-properties',
    'natural-convection-textbook',
  ),
  cautions: [
    'Still air: draughts, valves, supports and gaps in the insulation add to it, in service 15 to 50 % and more.',
    'Printed tables of bare copper lie 10 to 60 % above still-air theory; bright new copper loses about half as much as dull copper.',
    'Published laws of upright pipes disagree: convection from the same as a level pipe down to half of it, up to a quarter of what a bare riser loses.',
    'A bare hot pipe burns. On a cold pipe, water condensing from the air adds heat that is not in this figure.',
  ],
  example: {
    input: { outsideDiameterMm: 22, insulationMm: 20, insulationConductivityWPerMK: 0.035, waterC: 60, ambientC: 22 },
    output: {
      wattsPerM: 7.160709815271015,
      overallWPerMK: 0.18843973198081618,
      surfaceC: 26.263000591322214,
      convectionWPerM2K: 3.2604084617314144,
      radiationWPerM2K: 5.363400343699614,
      rayleigh: 99450.96114062783,
      regime: 'laminar',
    },
  },
  run: pipeHeatLoss,
})
