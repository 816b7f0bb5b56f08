import type { Circuit } from '../building/water-system.ts'
import type { Layer } from './layers.ts'
import { markShape } from './mark-shape.ts'
import { familyGlyph, GLYPH_WORDS, glyphFamily, valveGlyph } from './outlet-glyph.ts'
import type { GlyphFamily } from './outlet-glyph.ts'
import type { Layout } from './places.ts'
import type { Shape } from './scene.ts'
import { textWidth } from './scene.ts'

interface Entry {
  text: string
  sign: (at: { x: number; y: number }) => Shape[]
  signWidth: number
}

const TEXT_PX = 12
/** Lower-case words run narrower than the wide estimate. */
const LEGEND_LETTER = 0.9
const ROW = 24
const GAP = 26
const LEFT = 12
const NARROWEST = 420

const CIRCUIT_WORDS: readonly [Circuit, string][] = [
  ['cold', 'cold'],
  ['hot', 'hot'],
  ['tempered', 'tempered'],
  ['hot-return', 'hot return'],
]

/** Explains what is on this drawing, and nothing that is not. */
export function legendShapes(layout: Layout, layer?: Layer): { shapes: Shape[]; width: number; height: number } {
  const entries = [...circuitEntries(layout), ...outletEntries(layout), ...layerEntries(layer)]
  const width = Math.max(layout.width, NARROWEST)
  const shapes: Shape[] = []
  let x = LEFT
  let y = layout.height + ROW / 2
  for (const entry of entries) {
    const needed = entry.signWidth + 8 + textWidth(entry.text, TEXT_PX) * LEGEND_LETTER
    if (x > LEFT && x + needed > width - LEFT) {
      x = LEFT
      y += ROW
    }
    shapes.push(...entry.sign({ x, y }), {
      type: 'text',
      x: x + entry.signWidth + 8,
      y: y + 4,
      text: entry.text,
      roles: ['legend-text'],
    })
    x += needed + GAP
  }
  return { shapes, width, height: entries.length === 0 ? 0 : y - layout.height + ROW }
}

function circuitEntries(layout: Layout): Entry[] {
  const present = new Set(layout.routes.map((route) => route.circuit))
  return CIRCUIT_WORDS.filter(([circuit]) => present.has(circuit)).map(([circuit, text]) => ({
    text,
    signWidth: 30,
    sign: ({ x, y }) => [{ type: 'line', x1: x, y1: y, x2: x + 30, y2: y, roles: ['pipe', circuit, 'main'] }],
  }))
}

function outletEntries(layout: Layout): Entry[] {
  const drawn = [...layout.spots.values()].filter((spot) => spot.role === 'outlet')
  const families = new Set<GlyphFamily>(drawn.map((spot) => glyphFamily(spot.component.kind)))
  const known = (Object.keys(GLYPH_WORDS) as GlyphFamily[]).filter((family) => families.has(family))
  const entries = known.map(
    (family): Entry => ({
      text: GLYPH_WORDS[family],
      signWidth: 10,
      sign: ({ x, y }) => [familyGlyph(family, { x: x + 5, y })],
    }),
  )
  if (drawn.some((spot) => spot.component.use?.pattern === 'unused'))
    entries.push({
      text: 'unused',
      signWidth: 10,
      sign: ({ x, y }) => [
        { type: 'group', roles: ['outlet', 'unused'], shapes: [familyGlyph('tap', { x: x + 5, y })] },
      ],
    })
  if ([...layout.spots.values()].some((spot) => spot.role === 'valve'))
    entries.push({
      text: 'mixing valve at the outlet',
      signWidth: 10,
      sign: ({ x, y }) => [valveGlyph({ x: x + 5, y })],
    })
  if (layout.groups.length > 0)
    entries.push({
      text: 'outlets of one floor and riser, counted',
      signWidth: 26,
      sign: ({ x, y }) => [{ type: 'rect', x, y: y - 7, width: 26, height: 14, rx: 4, roles: ['counted-box'] }],
    })
  return entries
}

const layerEntries = (layer: Layer | undefined): Entry[] =>
  (layer?.legend ?? []).map(({ form, tone, text }) => ({
    text,
    signWidth: 14,
    sign: ({ x, y }) => markShape({ form, tone, at: { x: x + 7, y }, r: 5.5 }),
  }))
