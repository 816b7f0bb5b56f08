import type { Tone, Wash } from './layers.ts'
import { mergeLines } from './merge-lines.ts'
import type { Layout, Route } from './places.ts'
import type { Shape } from './scene.ts'

/** One broad line a tone, along the pipes that carry it; where pipes share a line, the first that has a tone speaks. */
export function washShapes({ routes }: Layout, washes: readonly Wash[]): Shape[] {
  if (washes.length === 0) return []
  const tones = new Map(washes.map(({ pipe, tone }) => [pipe, tone]))
  const byTone = new Map<Tone, Route[]>()
  for (const route of routes) {
    const tone = route.pipes.map((pipe) => tones.get(pipe)).find((one) => one !== undefined)
    if (tone === undefined) continue
    const along = byTone.get(tone)
    if (along === undefined) byTone.set(tone, [route])
    else along.push(route)
  }
  return [...byTone].map(([tone, along]) => ({
    type: 'path',
    d: mergeLines(along.map(({ points }) => points)),
    roles: ['wash', tone],
  }))
}
