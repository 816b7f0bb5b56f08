import { floorWords } from '@rillmark/casebook/building/floor-words.ts'
import { kindWord } from '@rillmark/casebook/building/labels.ts'
import type { Component, WaterSystem } from '@rillmark/casebook/building/water-system.ts'

/** Where a part is, else what it is: `floor 4 · riser B`. */
export function placeLine({ kind, floor, riser }: Component, system: WaterSystem): string {
  const parts = [
    floor !== undefined && floorWords(system.floors, floor),
    riser !== undefined && `riser ${riser}`,
  ].filter((part) => part !== false)
  return parts.length === 0 ? kindWord(kind) : parts.join(' · ')
}
