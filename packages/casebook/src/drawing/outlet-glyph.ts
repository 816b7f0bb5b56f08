import type { ComponentKind } from '../building/water-system.ts'
import { isDevice } from '../building/water-system.ts'
import type { Spot } from './places.ts'
import type { Shape } from './scene.ts'
import { tenth } from './scene.ts'

/** The families of outlet signs, told apart by form alone. */
export type GlyphFamily = 'shower' | 'tap' | 'kitchen' | 'bath' | 'hose' | 'device' | 'plant'

const FAMILIES: Partial<Record<ComponentKind, GlyphFamily>> = {
  shower: 'shower',
  'hand-shower': 'shower',
  'basin-tap': 'tap',
  'kitchen-tap': 'kitchen',
  'cleaner-sink': 'kitchen',
  bath: 'bath',
  'hose-tap': 'hose',
  other: 'hose',
}

export const GLYPH_WORDS: Record<GlyphFamily, string> = {
  shower: 'shower',
  tap: 'basin tap',
  kitchen: 'kitchen tap or sink',
  bath: 'bath',
  hose: 'hose or other tap',
  device: 'device',
  plant: 'valve, pump or heater on the floor',
}

export const glyphFamily = (kind: ComponentKind): GlyphFamily =>
  FAMILIES[kind] ?? (isDevice({ kind }) ? 'device' : 'plant')

/** The small sign of an outlet: a spray, a round tap, a square tap, a tub, a ring, a diamond. */
export function outletGlyph(spot: Spot): Shape[] {
  if (spot.role === 'valve') return [valveGlyph(spot)]
  return [familyGlyph(glyphFamily(spot.component.kind), spot)]
}

export function familyGlyph(family: GlyphFamily, { x, y }: { x: number; y: number }): Shape {
  const roles = ['glyph', family]
  const at = (dx: number, dy: number): string => `${tenth(x + dx)} ${tenth(y + dy)}`
  switch (family) {
    case 'shower':
      return { type: 'path', d: `M${at(0, -4.5)}L${at(5, 3.5)}L${at(-5, 3.5)}Z`, roles }
    case 'tap':
      return { type: 'circle', cx: tenth(x), cy: tenth(y), r: 3.6, roles }
    case 'kitchen':
      return { type: 'rect', x: tenth(x - 3.4), y: tenth(y - 3.4), width: 6.8, height: 6.8, roles }
    case 'bath':
      return { type: 'path', d: `M${at(-6, -3)}H${tenth(x + 6)}C${at(6, 5)} ${at(-6, 5)} ${at(-6, -3)}Z`, roles }
    case 'hose':
      return { type: 'circle', cx: tenth(x), cy: tenth(y), r: 3.6, roles: [...roles, 'open'] }
    case 'device':
      return { type: 'path', d: `M${at(0, -5)}L${at(5, 0)}L${at(0, 5)}L${at(-5, 0)}Z`, roles }
    case 'plant':
      return { type: 'rect', x: tenth(x - 5), y: tenth(y - 4), width: 10, height: 8, rx: 2, roles: [...roles, 'open'] }
  }
}

/** Two cones tip to tip, the sign of a valve. */
export const valveGlyph = ({ x, y }: { x: number; y: number }): Shape => ({
  type: 'path',
  d: `M${tenth(x - 4)} ${tenth(y - 2.5)}L${tenth(x + 4)} ${tenth(y + 2.5)}V${tenth(y - 2.5)}L${tenth(x - 4)} ${tenth(y + 2.5)}Z`,
  roles: ['glyph', 'valve'],
})
