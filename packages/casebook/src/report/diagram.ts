import type { Component, WaterSystem } from '../building/water-system.ts'
import { isOutlet } from '../building/water-system.ts'
import { drawSystem } from '../drawing/draw-scene.ts'
import type { Layer } from '../drawing/layers.ts'
import { sceneToSvg } from '../drawing/svg.ts'
import { resultLayer } from '../findings/result-layer.ts'
import type { ReportContext } from './context.ts'
import type { Block } from './model.ts'

/** The riser diagram with every result on it; without a described building there is none. */
export function diagramBlock(context: ReportContext): Block[] {
  const { rows, units } = context
  return drawnWith(context, {
    layer: resultLayer(rows, units),
    caption: 'Riser diagram with results: floors across, risers up.',
    mark: 'result',
  })
}

/**
 * The riser diagram with a layer; without a described building there is none.
 *
 * @param given.mark what a mark says of itself where names are withheld
 */
export function drawnWith(
  context: ReportContext,
  { layer, caption, mark }: { readonly layer: Layer; readonly caption: string; readonly mark: string },
): Block[] {
  const { state, redacted, units } = context
  const { system } = state.building
  if (system === undefined) return []
  const shown = redacted ? withoutNames(system, { layer, mark }) : { system, layer }
  const scene = drawSystem(shown.system, { layer: shown.layer, units })
  return [
    {
      block: 'figure',
      caption: `${caption} ${scene.description}${redacted ? ' Rooms and labels are withheld.' : ''}`,
      alt: `${scene.title}. ${scene.description}`,
      svg: sceneToSvg(scene, { theme: 'paper', pointable: false }),
      width: scene.width,
      height: scene.height,
    },
  ]
}

/** The same drawing with rooms, labels of outlets, notes and speaking ids gone; new ids keep the order of the old. */
function withoutNames(
  system: WaterSystem,
  { layer, mark: words }: { layer: Layer; mark: string },
): { system: WaterSystem; layer: Layer } {
  const ids = [...system.components.map(({ id }) => id), ...system.pipes.map(({ id }) => id)].sort((a, b) =>
    a.localeCompare(b, 'en', { numeric: true }),
  )
  const anonymous = new Map(ids.map((id, index) => [id, `part-${String(index + 1).padStart(5, '0')}`]))
  const named = (id: string): string => anonymous.get(id) ?? id
  const bare = ({ room: _room, notes: _notes, label, ...component }: Component): Component => ({
    ...component,
    id: named(component.id),
    ...(label === undefined || isOutlet(component) ? {} : { label }),
  })
  return {
    system: {
      ...system,
      components: system.components.map(bare),
      pipes: system.pipes.map(({ label: _label, notes: _notes, ...pipe }) => ({
        ...pipe,
        id: named(pipe.id),
        from: named(pipe.from),
        to: named(pipe.to),
      })),
    },
    layer: {
      ...layer,
      marks: layer.marks.map(({ component, ...mark }) => ({
        ...mark,
        ...(component === undefined ? {} : { component: named(component) }),
        label: words,
      })),
      ...(layer.washes === undefined
        ? {}
        : { washes: layer.washes.map((wash) => ({ ...wash, pipe: named(wash.pipe) })) }),
    },
  }
}
