import * as z from 'zod'
import { DEVICE_KINDS, DISINFECTANT_KINDS, OUTLET_KINDS } from './water-system.ts'

const QUICK_DESCRIPTION_FORMAT = 'rillmark/quick-description@1'

const name = z.string().min(1).max(80)
const countByKind = z.partialRecord(z.enum([...OUTLET_KINDS, ...DEVICE_KINDS]), z.int().min(0).max(500))
const temperatureC = z.number().min(0).max(100)

/** The text as it appears inside an id: lower case, words joined by hyphens. */
export const idPart = (text: string): string =>
  text
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N}]+/gu, '-')
    .replaceAll(/^-|-$/g, '') || 'x'

const distinct = (names: readonly string[]): boolean => new Set(names.map(idPart)).size === names.length

const floorsSchema = z.strictObject({
  count: z.int().min(1).max(200),
  first: z.int().min(-10).max(10).optional(),
  names: z.array(z.strictObject({ floor: z.int(), name })).optional(),
})

const overrideSchema = z.strictObject({
  riser: name.optional(),
  floor: z.int().optional(),
  outlets: countByKind,
})

const heaterSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('storage'),
    volumeL: z.number().positive().optional(),
    setpointC: temperatureC.optional(),
    label: name.optional(),
  }),
  z.strictObject({ kind: z.literal('instant'), setpointC: temperatureC.optional(), label: name.optional() }),
])

const supplySchema = z.strictObject({
  disinfectant: z.enum(DISINFECTANT_KINDS),
  residualMgPerL: z.number().nonnegative().optional(),
  temperatureC: temperatureC.optional(),
  pH: z.number().min(0).max(14).optional(),
})

/**
 * What a facility's water person can answer in two minutes. `floors` and `risers` may be a bare number; overrides
 * replace the outlets of the riser, the floor or the single riser and floor they name, later ones winning.
 */
export const quickDescriptionSchema = z.strictObject({
  format: z.literal(QUICK_DESCRIPTION_FORMAT).optional(),
  name,
  floors: z.union([z.int().min(1).max(200), floorsSchema]),
  plant: z.strictObject({ position: z.enum(['bottom', 'roof']), name: name.optional() }).optional(),
  risers: z.union([
    z.int().min(1).max(200),
    z.array(name).min(1).max(200).refine(distinct, 'riser names that differ in letters or digits'),
  ]),
  outlets: countByKind,
  overrides: z.array(overrideSchema).optional(),
  heaters: z.array(heaterSchema).max(50).optional(),
  coldTank: z.strictObject({ volumeL: z.number().positive().optional() }).optional(),
  recirculation: z.enum(['none', 'per-riser', 'whole']),
  mixing: z.enum(['none', 'central', 'point-of-use']),
  supply: supplySchema,
  pipes: z
    .strictObject({
      material: z.enum(['copper', 'plastic', 'steel', 'unknown']).optional(),
      insulation: z.enum(['none', 'thin', 'good', 'unknown']).optional(),
    })
    .optional(),
})

export type QuickDescription = z.infer<typeof quickDescriptionSchema>
export type OutletCounts = z.infer<typeof countByKind>
export type QuickHeater = z.infer<typeof heaterSchema>

/** The shape of the building a quick description speaks of, with every default settled. */
export interface BuildingShape {
  floors: readonly number[]
  risers: readonly string[]
  plantFloor: number
  plantPosition: 'bottom' | 'roof'
}

/** The floors from the lowest, the risers by name, and where the plant stands. */
export function shapeOf(description: QuickDescription): BuildingShape {
  const given = typeof description.floors === 'number' ? { count: description.floors } : description.floors
  const first = given.first ?? 1
  const floors = Array.from({ length: given.count }, (_, index) => first + index)
  const risers = typeof description.risers === 'number' ? lettersFor(description.risers) : description.risers
  const plantPosition = description.plant?.position ?? 'bottom'
  const plantFloor = plantPosition === 'bottom' ? first - 1 : first + given.count
  return { floors, risers, plantFloor, plantPosition }
}

/** The outlets on one floor of one riser: the usual ones, replaced by the last override that names the place. */
export function outletsAt(description: QuickDescription, place: { floor: number; riser: string }): OutletCounts {
  let counts = description.outlets
  for (const override of description.overrides ?? []) {
    const riserFits = override.riser === undefined || override.riser === place.riser
    const floorFits = override.floor === undefined || override.floor === place.floor
    if (riserFits && floorFits) counts = override.outlets
  }
  return counts
}

const ALPHABET = 26

/** A, B … Z, AA, AB … as columns of a sheet are named. */
function lettersFor(count: number): string[] {
  return Array.from({ length: count }, (_, index) => {
    const last = String.fromCharCode(65 + (index % ALPHABET))
    return index < ALPHABET ? last : String.fromCharCode(64 + Math.floor(index / ALPHABET)) + last
  })
}
