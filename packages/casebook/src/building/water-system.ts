import * as z from 'zod'

/** The name and version of the file format, written into every file. */
export const WATER_SYSTEM_FORMAT = 'rillmark/water-system@1'

/** What water a pipe carries. */
export const CIRCUITS = ['cold', 'hot', 'tempered', 'hot-return'] as const

/** The parts between the supply and the outlets. */
const PLANT_KINDS = [
  'supply-entry',
  'treatment',
  'cold-tank',
  'storage-heater',
  'instant-heater',
  'mixing-valve',
  'pump',
  'junction',
  'drain-valve',
] as const

/** Where people meet the water. */
export const OUTLET_KINDS = [
  'shower',
  'hand-shower',
  'basin-tap',
  'kitchen-tap',
  'bath',
  'hose-tap',
  'cleaner-sink',
  'other',
] as const

/** What stores, warms or sprays water beyond an outlet. */
export const DEVICE_KINDS = [
  'drinking-fountain',
  'ice-machine',
  'spa-pool',
  'ornamental-fountain',
  'humidifier',
  'eyewash',
  'dental-unit',
  'cooling-tower',
] as const

export const COMPONENT_KINDS = [...PLANT_KINDS, ...OUTLET_KINDS, ...DEVICE_KINDS] as const

/** What keeps the supply disinfected; `unknown` is an answer, a missing fact is not. */
export const DISINFECTANT_KINDS = ['free-chlorine', 'chloramine', 'chlorine-dioxide', 'none', 'unknown'] as const

/** How a fact is known: seen on site, told by someone, read off a drawing, or guessed. */
export const KNOWN_BY = ['seen', 'told', 'drawn', 'guessed'] as const

const id = z.string().min(1).max(80)
const shortText = z.string().min(1).max(200)
const longText = z.string().max(4000)
const positive = z.number().positive()
const notNegative = z.number().nonnegative()
const temperatureC = z.number().min(-50).max(150)
const knownBy = z.enum(KNOWN_BY)

/** One word for every fact (`default`), and a different one where a single fact differs. */
const provenanceSchema = z.record(z.string().min(1), knownBy)

const clockTime = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'a time of day such as 07:30')
const mixToC = temperatureC.optional()

const drawSchema = z.strictObject({ at: clockTime, minutes: positive, flowLPerMin: positive, mixToC })

const useSchema = z.discriminatedUnion('pattern', [
  z.strictObject({
    pattern: z.literal('pulses'),
    eventsPerDay: positive,
    minutes: positive,
    flowLPerMin: positive,
    mixToC,
  }),
  z.strictObject({ pattern: z.literal('constant'), flowLPerMin: positive, mixToC }),
  z.strictObject({ pattern: z.literal('schedule'), draws: z.array(drawSchema).min(1), mixToC }),
  z.strictObject({ pattern: z.literal('unused') }),
])

export const componentSchema = z.strictObject({
  id,
  kind: z.enum(COMPONENT_KINDS),
  label: shortText.optional(),
  floor: z.int().min(-20).max(300).optional(),
  riser: shortText.optional(),
  room: shortText.optional(),
  zone: shortText.optional(),
  volumeL: positive.optional(),
  setpointC: temperatureC.optional(),
  flowLPerMin: notNegative.optional(),
  heatLossWPerK: notNegative.optional(),
  ambientC: temperatureC.optional(),
  use: useSchema.optional(),
  notes: longText.optional(),
  provenance: provenanceSchema.optional(),
})

export const pipeSchema = z.strictObject({
  id,
  from: id,
  to: id,
  circuit: z.enum(CIRCUITS),
  lengthM: positive,
  boreMm: positive.optional(),
  outsideDiameterMm: positive.optional(),
  standard: shortText.optional(),
  size: shortText.optional(),
  insulationMm: notNegative.optional(),
  insulationConductivityWPerMK: positive.optional(),
  ambientC: temperatureC.optional(),
  recirculationLPerMin: notNegative.optional(),
  roughnessMm: notNegative.optional(),
  label: shortText.optional(),
  notes: longText.optional(),
  provenance: provenanceSchema.optional(),
})

const disinfectantSchema = z.strictObject({
  kind: z.enum(DISINFECTANT_KINDS),
  residualMgPerL: notNegative.optional(),
})

export const supplySchema = z.strictObject({
  temperatureC,
  pH: z.number().min(0).max(14).optional(),
  disinfectant: disinfectantSchema,
  notes: longText.optional(),
  provenance: provenanceSchema.optional(),
})

const decaySchema = z.strictObject({
  bulkPerHour: notNegative,
  wallMPerHour: notNegative,
  referenceC: temperatureC,
  activationKJPerMol: notNegative.optional(),
})

const floorNameSchema = z.strictObject({ floor: z.int().min(-20).max(300), name: shortText })

/** The facts of a water system beside its components and pipes. */
export const systemHeadSchema = z.strictObject({
  format: z.literal(WATER_SYSTEM_FORMAT),
  name: shortText,
  ambientC: temperatureC.optional(),
  supply: supplySchema,
  decay: decaySchema.optional(),
  floors: z.array(floorNameSchema).optional(),
  plantPosition: z.enum(['bottom', 'roof']).optional(),
  notes: longText.optional(),
  provenance: provenanceSchema.optional(),
})

/** A building's water as a graph: components joined by pipes (`rillmark/water-system@1`). */
export const waterSystemSchema = systemHeadSchema.extend({
  components: z.array(componentSchema),
  pipes: z.array(pipeSchema),
})

export type Circuit = (typeof CIRCUITS)[number]
export type ComponentKind = (typeof COMPONENT_KINDS)[number]
export type DisinfectantKind = (typeof DISINFECTANT_KINDS)[number]
export type KnownBy = z.infer<typeof knownBy>
export type Provenance = z.infer<typeof provenanceSchema>
export type Use = z.infer<typeof useSchema>
export type Component = z.infer<typeof componentSchema>
export type Pipe = z.infer<typeof pipeSchema>
export type Supply = z.infer<typeof supplySchema>
export type WaterSystem = z.infer<typeof waterSystemSchema>

const MET_BY_PEOPLE: ReadonlySet<string> = new Set([...OUTLET_KINDS, ...DEVICE_KINDS])
const DEVICES: ReadonlySet<string> = new Set(DEVICE_KINDS)

/** True for outlets and devices: the places where water leaves the system. */
export const isOutlet = (component: { kind: ComponentKind }): boolean => MET_BY_PEOPLE.has(component.kind)

export const isDevice = (component: { kind: ComponentKind }): boolean => DEVICES.has(component.kind)

export const isHeater = (component: { kind: ComponentKind }): boolean =>
  component.kind === 'storage-heater' || component.kind === 'instant-heater'

/**
 * How one fact of a component, pipe or supply is known: its own word, else the word for all, else undefined.
 *
 * @example knownByOf({ provenance: { default: 'told', volumeL: 'seen' } }, 'volumeL') // 'seen'
 */
export function knownByOf(thing: { provenance?: Provenance | undefined }, fact: string): KnownBy | undefined {
  return thing.provenance?.[fact] ?? thing.provenance?.['default']
}
