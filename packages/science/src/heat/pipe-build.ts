import film from '@rillmark/reference/heat/film.json' with { type: 'json' }
import table from '@rillmark/reference/heat/materials.json' with { type: 'json' }
import * as z from 'zod'
import { field, refuse } from '../catalogue/fields.ts'

/** What a pipe is made of and wrapped in. */
export interface PipeBuild {
  outsideDiameterMm: number
  wallMm: number
  material: string
  insulationMm: number
  insulationConductivityWPerMK?: number | undefined
  surfaceEmissivity: number
  /** Of a pipe that stands upright; left out for a level one. */
  uprightHeightM?: number | undefined
}

export interface PipeMaterial {
  conductivityWPerMK: number
  densityKgPerM3: number
  heatJPerKgK: number
}

/** Wide enough for every pipe of a building, narrow enough to stay within the film's correlation. */
const WIDEST_PIPE_MM = 3000
const THICKEST_INSULATION_MM = 500
/** As high as buildings are. */
const TALLEST_RISER_M = 1000
/** W/(m K); a tenth of the best there is. */
const LEAST_CONDUCTIVITY = 0.001

/**
 * The fields that say what a pipe is made of and wrapped in, besides its wall.
 *
 * @source none: it computes nothing of the trade
 */
export const buildShape = () => ({
  outsideDiameterMm: field(z.number().min(1).max(WIDEST_PIPE_MM), {
    what: 'outside diameter of the bare pipe',
    unit: 'mm',
  }),
  insulationMm: field(z.number().min(0).max(THICKEST_INSULATION_MM).default(0), {
    what: 'thickness of the insulation, 0 for a bare pipe',
    unit: 'mm',
  }),
  insulationConductivityWPerMK: field(z.number().min(0).max(400).optional(), {
    what: 'conductivity of the insulation, as the maker states it; needed where there is any',
    unit: 'W/(m K)',
  }),
  surfaceEmissivity: field(z.number().min(0).max(1).default(film.figures.emissivity.value), {
    what: 'emissivity of the outermost surface: about 0.9 for insulation, paint, plastic and dull metal, 0.05 for bright copper',
  }),
  uprightHeightM: field(z.number().min(0.1).max(TALLEST_RISER_M).optional(), {
    what: 'height over which the pipe stands upright, such as a storey; left out for a level pipe',
    unit: 'm',
  }),
  material: field(z.enum(table.materials.map(({ id }) => id)).default('copper'), { what: 'what the pipe is made of' }),
})

/**
 * The field of the temperature of the air around a pipe (°C, at most 80).
 *
 * @param lowestAirC the coldest air that may be given (°C)
 * @source none: it computes nothing of the trade
 */
export const ambientField = (lowestAirC: number) =>
  field(z.number().min(lowestAirC).max(80), { what: 'temperature of the air around the pipe', unit: '°C' })

/**
 * The field of the thickness of a pipe's wall (mm), 0 where it should not count.
 *
 * @source none: it computes nothing of the trade
 */
export const wallField = () =>
  field(z.number().min(0).max(100).default(0), {
    what: 'thickness of the pipe wall; 0 leaves its resistance out, which is right for metal',
    unit: 'mm',
  })

/**
 * The rules between the fields of a pipe, as a schema applies them.
 *
 * @param pipe the fields as given
 * @param context of the schema
 * @source none: it computes nothing of the trade
 */
export function refuseImpossiblePipe(
  pipe: {
    outsideDiameterMm: number
    wallMm?: number
    insulationMm: number
    insulationConductivityWPerMK?: number | undefined
  },
  context: z.RefinementCtx,
): void {
  if (pipe.insulationMm > 0 && !((pipe.insulationConductivityWPerMK ?? 0) >= LEAST_CONDUCTIVITY)) {
    const expected = `the conductivity of the insulation that is there, at least ${LEAST_CONDUCTIVITY}`
    context.addIssue(refuse(['insulationConductivityWPerMK'], expected))
  }
  const widest = pipe.outsideDiameterMm / 2
  if (pipe.wallMm !== undefined && pipe.wallMm > 0 && pipe.wallMm >= widest) {
    const received = String(pipe.wallMm)
    context.addIssue(refuse(['wallMm'], { expected: `less than half the outside diameter, ${widest}`, received }))
  }
}

/**
 * Conductivity, density and heat capacity of what a pipe is made of.
 *
 * @param id of `reference/heat/materials.json`
 * @throws RangeError when there is none of that id
 * @source en-12524
 * @example
 * pipeMaterial('copper').conductivityWPerMK // => 380
 */
export function pipeMaterial(id: string): PipeMaterial {
  const found = table.materials.find((each) => each.id === id)
  if (found === undefined)
    throw new RangeError(`Cannot tell a pipe's properties because its material is unknown: got ${id}`)
  return found
}

const MM_PER_M = 1000

/**
 * Outside and inside diameters and the heat the solid parts hold per metre and kelvin (J/(m K)).
 *
 * C = π/4 · [(D² − d²) ρ c + ½ (Dᵢ² − D²) ρᵢ cᵢ], half the insulation because half its heat follows the water.
 *
 * @param pipe its build
 * @source en-12524
 * @source lagging-properties
 * @example
 * solidHeatJPerMK({ outsideDiameterMm: 22, wallMm: 1, material: 'copper', insulationMm: 0, surfaceEmissivity: 0.9 }) // => 223.12219344325408
 */
export function solidHeatJPerMK(pipe: PipeBuild): number {
  const { densityKgPerM3, heatJPerKgK } = pipeMaterial(pipe.material)
  const outside = pipe.outsideDiameterMm / MM_PER_M
  const bore = outside - (2 * pipe.wallMm) / MM_PER_M
  const wrapped = outside + (2 * pipe.insulationMm) / MM_PER_M
  const { insulationDensity, insulationHeat, insulationShare } = film.figures
  const insulation = insulationDensity.value * insulationHeat.value * insulationShare.value
  const metal = densityKgPerM3 * heatJPerKgK
  return (Math.PI / 4) * ((outside ** 2 - bore ** 2) * metal + (wrapped ** 2 - outside ** 2) * insulation)
}
