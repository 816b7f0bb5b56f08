/** A place on the drawing that can take the focus. */
export interface Target {
  readonly id: string
  readonly x: number
  readonly y: number
}

export type Direction = 'left' | 'right' | 'up' | 'down'

const AXIS: Readonly<Record<Direction, readonly [number, number]>> = {
  left: [-1, 0],
  right: [1, 0],
  up: [0, -1],
  down: [0, 1],
}

/** How much more a step aside costs than a step ahead, so that an arrow key keeps to its row or riser. */
const ASIDE = 3

/** The next place in a direction, as an arrow key means it: ahead, and as little aside as can be. Undefined at the edge. */
export function nearest(
  targets: readonly Target[],
  { from, direction }: { readonly from: Target; readonly direction: Direction },
): Target | undefined {
  const [dx, dy] = AXIS[direction]
  let best: Target | undefined
  let bestCost = Number.POSITIVE_INFINITY
  for (const target of targets) {
    const ahead = (target.x - from.x) * dx + (target.y - from.y) * dy
    if (target.id === from.id || ahead <= 0.5) continue
    const aside = Math.abs((target.x - from.x) * dy) + Math.abs((target.y - from.y) * dx)
    const cost = ahead + ASIDE * aside
    if (cost < bestCost) [best, bestCost] = [target, cost]
  }
  return best
}
