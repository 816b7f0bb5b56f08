import { drawSystem } from '@rillmark/casebook/drawing/draw-scene.ts'
import { given } from '@rillmark/casebook/entry/given.ts'
import type { Layer } from '@rillmark/casebook/drawing/layers.ts'
import { layoutSystem } from '@rillmark/casebook/drawing/layout.ts'
import type { Layout } from '@rillmark/casebook/drawing/places.ts'
import type { Scene, Shape } from '@rillmark/casebook/drawing/scene.ts'
import type { DisplayUnits } from '@rillmark/casebook/units/display-units.ts'
import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import type { Target } from './nearest.ts'
import { placeKey } from './SceneShapes.tsx'

/** How much is drawn: what stays readable, every outlet, or counted boxes; single boxes may be opened. */
export interface Detail {
  readonly detail: 'auto' | 'all' | 'collapsed'
  readonly expanded: readonly { readonly floor: number; readonly riser: string }[]
}

export interface DiagramModel {
  readonly scene: Scene
  readonly layout: Layout
  /** What can take the focus: outlets, plant and counted boxes, by component id or place key. */
  readonly targets: readonly Target[]
  /** What a screen reader and the line under the drawing say of each target. */
  readonly names: ReadonlyMap<string, string>
  /** Where a component is to be found: itself, or the box it is counted in. */
  readonly targetOf: (component: string) => Target | undefined
}

export function layoutOf(system: WaterSystem, { detail, expanded }: Detail): Layout {
  return layoutSystem(system, { detail, expanded })
}

/** The scene of one layer on a given layout, and what the keyboard and the screen reader need of it. */
export function diagramModel(
  system: WaterSystem,
  { layout, layer, units }: { layout: Layout; layer: Layer | undefined; units?: DisplayUnits | undefined },
): DiagramModel {
  const scene = drawSystem(system, { layout, legend: false, ...given({ layer, units }) })
  const names = namesOf(scene.shapes)
  const spots = [...layout.spots.values()].filter(
    (spot) => spot.role === 'outlet' || spot.role === 'equipment' || spot.role === 'valve',
  )
  const boxes = layout.groups.map((group) => ({
    id: placeKey(group),
    x: group.left + group.width / 2,
    y: group.top + group.height / 2,
  }))
  const targets = [...spots.map((spot) => ({ id: spot.component.id, x: spot.x, y: spot.y })), ...boxes]
  const byId = new Map(targets.map((target) => [target.id, target]))
  const boxOf = new Map(layout.groups.flatMap((group) => group.outlets.map((one) => [one.id, placeKey(group)])))
  return { scene, layout, targets, names, targetOf: (id) => byId.get(boxOf.get(id) ?? id) }
}

/** A place's own words, followed by what the marks on it say. */
function namesOf(shapes: readonly Shape[]): Map<string, string> {
  const names = new Map<string, string>()
  for (const shape of shapes) {
    const key =
      shape.component ?? (shape.type === 'group' && shape.place !== undefined ? placeKey(shape.place) : undefined)
    if (key === undefined || shape.label === undefined) continue
    const before = names.get(key)
    names.set(key, before === undefined ? shape.label : `${before}. ${shape.label}`)
  }
  return names
}
