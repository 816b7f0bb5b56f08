import type { Point } from './places.ts'
import { tenth } from './scene.ts'

/** A stretch along x or y at a fixed other coordinate. */
interface Stretch {
  from: number
  to: number
}

/**
 * One path that covers several lines once: where pipes share a stretch of the drawing it is drawn a single time, so
 * that dashes stay in step and thin lines do not darken.
 *
 * @param lines corner points; only level and upright stretches occur, others are kept as they are
 */
export function mergeLines(lines: readonly (readonly Point[])[]): string {
  const level = new Map<number, Stretch[]>()
  const upright = new Map<number, Stretch[]>()
  const slanted: string[] = []
  for (const line of lines) {
    for (const [index, b] of line.entries()) {
      const a = line[index - 1]
      if (a === undefined) continue
      if (a.y === b.y) keep(level, { at: a.y, from: a.x, to: b.x })
      else if (a.x === b.x) keep(upright, { at: a.x, from: a.y, to: b.y })
      else slanted.push(`M${tenth(a.x)} ${tenth(a.y)}L${tenth(b.x)} ${tenth(b.y)}`)
    }
  }
  const across = merged(level).map(({ at, from, to }) => `M${tenth(from)} ${tenth(at)}H${tenth(to)}`)
  const along = merged(upright).map(({ at, from, to }) => `M${tenth(at)} ${tenth(from)}V${tenth(to)}`)
  return [...across, ...along, ...slanted].join('')
}

function keep(map: Map<number, Stretch[]>, { at, from, to }: Stretch & { at: number }): void {
  const stretch = { from: Math.min(from, to), to: Math.max(from, to) }
  const known = map.get(at)
  if (known === undefined) map.set(at, [stretch])
  else known.push(stretch)
}

function merged(map: ReadonlyMap<number, readonly Stretch[]>): (Stretch & { at: number })[] {
  return [...map]
    .sort(([a], [b]) => a - b)
    .flatMap(([at, stretches]) => {
      const joined: (Stretch & { at: number })[] = []
      for (const { from, to } of stretches.toSorted((a, b) => a.from - b.from || a.to - b.to)) {
        const last = joined.at(-1)
        if (last !== undefined && from <= last.to) last.to = Math.max(last.to, to)
        else joined.push({ at, from, to })
      }
      return joined
    })
}
