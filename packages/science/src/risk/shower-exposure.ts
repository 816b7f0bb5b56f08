import table from '@rillmark/reference/risk/shower.json' with { type: 'json' }
import type { RandomSource } from '../random/random-source.ts'

export const showerHeads = ['conventional', 'water-efficient'] as const
export const breathingAges = ['50-61', '16-21'] as const

export interface Shower {
  showerHead: (typeof showerHeads)[number]
  age: (typeof breathingAges)[number]
  minutes: number
}

/** One draw of what carries water from the shower into the lung. */
export interface Exposure {
  /** Water in the air, m³ in m³. */
  airborne: number
  /** m³ of air per min. */
  breathing: number
  /** Share of the Legionella breathed in that settles in the deep lung. */
  deposited: number
  /** Water that brings as many as settle, L. */
  litres: number
}

const MICROMETRES_PER_M = 1e6
const L_PER_M3 = 1000

/**
 * Draws of the water whose Legionella settle in the deep lung during one shower (L), with the parts it is made of.
 * Wanted because published measurements of mist, breath and deposition scatter, and the scatter must reach the answer.
 *
 * litres = breathing · minutes · 1000 · Σ numberᵢ · (π/6)·dᵢ³ · Σ shareᵢ · depositedᵢ over droplets of 1 to 10 µm; numbers of droplets are
 * lognormal, breathing and deposition uniform, all independent, as published.
 *
 * @param shower head, age of who breathes, minutes
 * @param random chance
 * @throws RangeError when the head or age is none of those known
 * @source hamilton-2019-coded
 * @source legionella-models-coded
 */
export function exposureDraws({ showerHead, age, minutes }: Shower, random: RandomSource): (into: Exposure) => void {
  const head = table.heads.find(({ id }) => id === showerHead)
  const breath = table.breathing.find((each) => each.age === age)
  if (head === undefined || breath === undefined)
    throw new RangeError(`Cannot draw an exposure because head and age must be known: got ${showerHead}, ${age}`)
  const droplets = head.airborne.map(({ diameterMicrometres, meanLog, sdLog }) => {
    const volumeM3 = (Math.PI / 6) * (diameterMicrometres / MICROMETRES_PER_M) ** 3
    return { middle: meanLog + Math.log(volumeM3), sd: sdLog }
  })
  const lungs = table.sizes.rows.map(({ legionellaShare, depositedLower, depositedUpper }) => ({
    least: legionellaShare * depositedLower,
    width: legionellaShare * (depositedUpper - depositedLower),
  }))
  const { lowerM3PerMin, upperM3PerMin } = breath
  return (into) => {
    let airborne = 0
    for (const { middle, sd } of droplets) airborne += Math.exp(middle + sd * random.normal())
    let deposited = 0
    for (const { least, width } of lungs) deposited += least + width * random.coarse()
    const breathing = lowerM3PerMin + (upperM3PerMin - lowerM3PerMin) * random.coarse()
    into.airborne = airborne
    into.deposited = deposited
    into.breathing = breathing
    into.litres = breathing * minutes * airborne * L_PER_M3 * deposited
  }
}
