import type { Layer } from '@rillmark/casebook/drawing/layers.ts'
import { markShape } from '@rillmark/casebook/drawing/mark-shape.ts'
import { familyGlyph, GLYPH_WORDS, type GlyphFamily, glyphFamily } from '@rillmark/casebook/drawing/outlet-glyph.ts'
import type { Layout } from '@rillmark/casebook/drawing/places.ts'
import type { Shape } from '@rillmark/casebook/drawing/scene.ts'
import type { ReactNode } from 'react'
import { SceneShapes } from './SceneShapes.tsx'

const CIRCUITS = { cold: 'cold', hot: 'hot', tempered: 'tempered', 'hot-return': 'hot return' } as const
const NO_NAMES: ReadonlyMap<string, string> = new Map()

/** What the marks, lines and signs of the drawing mean; marks of the layer first. */
export function DiagramLegend({
  layout,
  layer,
}: {
  readonly layout: Layout
  readonly layer: Layer | undefined
}): ReactNode {
  const circuits = new Set(layout.routes.map((route) => route.circuit))
  const families = new Set<GlyphFamily>()
  for (const spot of layout.spots.values()) if (spot.role === 'outlet') families.add(glyphFamily(spot.component.kind))
  return (
    <ul className="diagram-legend" aria-label="What the marks mean">
      {(layer?.legend ?? []).map(({ form, tone, text }) => (
        <Sign key={text} words={text} width={16} shapes={markShape({ form, tone, at: { x: 8, y: 8 }, r: 5.5 })} />
      ))}
      {(Object.keys(CIRCUITS) as (keyof typeof CIRCUITS)[])
        .filter((circuit) => circuits.has(circuit))
        .map((circuit) => (
          <Sign
            key={circuit}
            words={CIRCUITS[circuit]}
            width={26}
            shapes={[{ type: 'line', x1: 0, y1: 8, x2: 26, y2: 8, roles: ['pipe', circuit, 'main'] }]}
          />
        ))}
      {[...families].map((family) => (
        <Sign key={family} words={GLYPH_WORDS[family]} width={14} shapes={[familyGlyph(family, { x: 7, y: 8 })]} />
      ))}
    </ul>
  )
}

function Sign({
  words,
  width,
  shapes,
}: {
  readonly words: string
  readonly width: number
  readonly shapes: readonly Shape[]
}): ReactNode {
  return (
    <li>
      <svg className="rl" width={width} height={16} aria-hidden="true">
        <SceneShapes scene={{ width, height: 16, title: '', description: '', shapes }} names={NO_NAMES} />
      </svg>
      {words}
    </li>
  )
}
