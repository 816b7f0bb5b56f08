import assumed from '@rillmark/reference/building/assumptions.json' with { type: 'json' }
import type { QuickDescription } from './quick-description.ts'
import type { ComponentKind, Pipe, Use } from './water-system.ts'

interface UseFigures {
  eventsPerDay: number
  minutes: number
  flowLPerMin: number
  mix?: string
  source: string
}

const FLOOR_HEIGHT_M = assumed.lengths.floorHeightM.value
const USES: Record<string, UseFigures | undefined> = assumed.use
const OUTLETS: Record<string, { use: string; circuits: string[] } | undefined> = assumed.outlets
const TEMPERATURES: Record<string, { value: number } | undefined> = assumed.temperatures

/** What is filled in where the description is silent; each figure's source is in `reference/building/assumptions.json`. */
export const ASSUMED = {
  ambientC: assumed.temperatures.ambientC.value,
  supplyC: assumed.temperatures.supplyC.value,
  storageSetpointC: assumed.temperatures.storageSetpointC.value,
  temperedC: assumed.temperatures.temperedC.value,
  storageHeaterL: assumed.volumes.storageHeaterL.value,
  coldTankL: assumed.volumes.coldTankL.value,
  flowPerRiserLPerMin: assumed.recirculation.flowPerRiserLPerMin.value,
  floorHeightM: FLOOR_HEIGHT_M,
  entryToPlantM: assumed.lengths.entryToPlantM.value,
  plantPipeM: assumed.lengths.plantPipeM.value,
  plantToRiserM: assumed.lengths.plantToRiserM.value,
  betweenRisersM: assumed.lengths.betweenRisersM.value,
  branchFirstM: assumed.lengths.branchFirstM.value,
  branchStepM: assumed.lengths.branchStepM.value,
  mixedTailM: assumed.lengths.mixedTailM.value,
} as const

/** The use an outlet of this kind is assumed to have; water mixed to `mixToC` only where hot water arrives. */
export function assumedUse(kind: ComponentKind): Use {
  const figures = USES[OUTLETS[kind]?.use ?? '']
  if (figures === undefined) return { pattern: 'unused' }
  const { eventsPerDay, minutes, flowLPerMin, mix } = figures
  const mixToC = mix === undefined ? undefined : TEMPERATURES[mix]?.value
  const use = { pattern: 'pulses' as const, eventsPerDay, minutes, flowLPerMin }
  return mixToC === undefined ? use : { ...use, mixToC }
}

/** Where the assumed use of this kind of outlet comes from. */
export const assumedUseSource = (kind: ComponentKind): string =>
  USES[OUTLETS[kind]?.use ?? '']?.source ?? 'common practice, no source'

/** True where an outlet of this kind is assumed to have hot water. */
export const assumedHot = (kind: ComponentKind): boolean => OUTLETS[kind]?.circuits.includes('hot') ?? false

/** Diameter and insulation of a pipe that serves so many outlets. Cold pipes are assumed insulated like hot ones. */
export function assumedPipe(
  description: QuickDescription,
  outletsServed: number,
): Pick<Pipe, 'boreMm' | 'outsideDiameterMm' | 'insulationMm' | 'insulationConductivityWPerMK'> {
  const material = description.pipes?.material ?? 'unknown'
  const { steps } = assumed.pipeSizes[material === 'unknown' ? 'copper' : material]
  const step = steps.find((one) => one.upToOutlets === null || one.upToOutlets >= outletsServed)
  if (step === undefined) throw new RangeError(`Cannot size a pipe because no step serves ${outletsServed} outlets`)
  const insulation = assumed.insulation[description.pipes?.insulation ?? 'unknown']
  return {
    boreMm: step.boreMm,
    outsideDiameterMm: step.outsideDiameterMm,
    insulationMm: insulation.insulationMm,
    insulationConductivityWPerMK: assumed.insulation.conductivityWPerMK.value,
  }
}
