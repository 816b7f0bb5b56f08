import { pipeVolume } from '@rillmark/science/pipes/pipe-volume.ts'
import { findPipeSize } from '@rillmark/science/pipes/pipe-catalogue.ts'
import type { Pipe, WaterSystem } from './water-system.ts'

export interface HeldWater {
  readonly volumeL: number
  /** pipes whose bore is not known, and vessels without a volume: their water is not in the sum */
  readonly notCounted: number
}

const VESSELS: ReadonlySet<string> = new Set(['cold-tank', 'storage-heater'])

/** The water the described pipes and vessels hold, litres. */
export function waterHeld({ components, pipes }: Pick<WaterSystem, 'components' | 'pipes'>): HeldWater {
  const vessels = components.filter(({ kind, volumeL }) => volumeL !== undefined || VESSELS.has(kind))
  const volumes = [...vessels.map(({ volumeL }) => volumeL), ...pipes.map(volumeOf)]
  const known = volumes.filter((volumeL) => volumeL !== undefined)
  return {
    volumeL: known.reduce((sum, volumeL) => sum + volumeL, 0),
    notCounted: volumes.length - known.length,
  }
}

function volumeOf({ boreMm, standard, size, lengthM }: Pipe): number | undefined {
  if (boreMm !== undefined) return pipeVolume({ boreMm, lengthM }).volumeL
  if (standard === undefined || size === undefined) return undefined
  const known = findPipeSize({ standard, size })
  return known === undefined ? undefined : pipeVolume({ boreMm: known.boreMm, lengthM }).volumeL
}
