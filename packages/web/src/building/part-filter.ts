import { componentName, kindWord } from '@rillmark/casebook/building/labels.ts'
import type { Component, WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import { isDevice, isOutlet } from '@rillmark/casebook/building/water-system.ts'
import { weakestKnown } from '@rillmark/casebook/building/weakest-known.ts'
import { placeWords } from './words.ts'

export interface PartFilter {
  readonly text: string
  readonly which: keyof typeof WHICH
}

export const EVERY_PART: PartFilter = { text: '', which: 'all' }

const WHICH = {
  all: (one: Component) => one.kind !== 'junction',
  outlets: (one: Component) => isOutlet(one) && !isDevice(one),
  devices: isDevice,
  plant: (one: Component) => !isOutlet(one) && one.kind !== 'junction',
  guessed: (one: Component) => one.kind !== 'junction' && weakestKnown(one) === 'guessed',
  unused: (one: Component) => one.use?.pattern === 'unused',
  junctions: (one: Component) => one.kind === 'junction',
}

export const WHICH_CHOICES: readonly { id: keyof typeof WHICH; label: string }[] = [
  { id: 'all', label: 'all but junctions' },
  { id: 'outlets', label: 'outlets' },
  { id: 'devices', label: 'devices' },
  { id: 'plant', label: 'plant and valves' },
  { id: 'guessed', label: 'with something guessed' },
  { id: 'unused', label: 'not used' },
  { id: 'junctions', label: 'junctions' },
]

/** Shorter words than this are a riser, a floor or a number: they mean a whole word. */
const LEAST_PART_OF_WORD = 3

/** Parts of the kind asked for whose name, kind, place or id has every word typed, in any order. */
export function partsFor({ components }: WaterSystem, { text, which }: PartFilter): Component[] {
  const words = text.toLowerCase().split(/\s+/).filter(Boolean)
  return components.filter((one) => {
    if (!WHICH[which](one)) return false
    if (words.length === 0) return true
    const said = `${componentName(one)} ${kindWord(one.kind)} ${placeWords(one)} ${one.id}`.toLowerCase()
    const whole = new Set(said.split(/[^\p{L}\p{N}]+/u))
    return words.every((word) => (word.length < LEAST_PART_OF_WORD ? whole.has(word) : said.includes(word)))
  })
}
