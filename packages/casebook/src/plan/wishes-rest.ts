import { isDevice, type Component } from '../building/water-system.ts'
import { because, metresTo, type PlanContext, type Wish } from './plan-context.ts'
import { PLANNING } from './planning.ts'
import { comparePlaces } from './positions.ts'
import { isLittleUsed } from './wishes-weak.ts'

/** A few outlets expected clean: well used, midway on risers no case used. They tell a local source from a wide one. */
export function controlWishes(context: PlanContext, chosen: readonly Wish[]): Wish[] {
  const taken = new Set(chosen.map(({ component }) => component.id))
  const exposed = new Set(
    chosen.filter(({ reason }) => reason.obligation === 'case exposure').map(({ component }) => component.riser),
  )
  const free = byRiser(context.outlets.filter((one) => !taken.has(one.id) && !isLittleUsed(one) && !isDevice(one)))
  const risers = [...free].sort(
    ([a], [b]) => Number(exposed.has(a)) - Number(exposed.has(b)) || comparePlaces(a ?? '', b ?? ''),
  )
  return risers.slice(0, PLANNING.controls).flatMap(([riser, outlets], step): Wish[] => {
    const along = outlets.toSorted((a, b) => metresTo(context, a) - metresTo(context, b))
    const component = along[Math.floor(along.length / 2)]
    if (component === undefined) return []
    const text = `Control: well used, midway${riser === undefined ? '' : ` on riser ${riser}`}${exposed.has(riser) ? '' : ', not used by any case'}. Expected clean; if not, the trouble is wide.`
    return [{ component, reason: because('control', { text, evidence: [component.id] }), step }]
  })
}

/**
 * The outlets nobody asked for, in the order they add most: a riser and floor with nothing sampled before one with something.
 * The order does not hang on the budget, so a larger budget only adds points.
 */
export function spreadWishes(context: PlanContext, chosen: readonly Wish[]): Wish[] {
  const taken = new Set(chosen.map(({ component }) => component.id))
  const queues = [...byRiser(context.outlets)].map(([riser, outlets]) => ({
    riser,
    queue: evenly(
      outlets.filter((one) => !taken.has(one.id)).toSorted((a, b) => metresTo(context, a) - metresTo(context, b)),
    ),
    total: outlets.length,
    sampled: outlets.filter((one) => taken.has(one.id)).length,
  }))
  const turns = queues.flatMap(({ riser, queue, total, sampled }) =>
    queue.map((component, turn) => ({ component, riser: riser ?? '', share: (sampled + turn) / total, turn })),
  )
  turns.sort((a, b) => a.share - b.share || comparePlaces(a.riser, b.riser) || a.turn - b.turn)
  return turns.map(({ component, riser }, step) => {
    const text = `Widens the view${riser === '' ? '' : ` of riser ${riser}`} beyond the obligatory points.`
    return { component, reason: because('spread', { text, evidence: [component.id] }), step }
  })
}

function byRiser(outlets: readonly Component[]): Map<string | undefined, Component[]> {
  const map = new Map<string | undefined, Component[]>()
  for (const outlet of outlets) {
    const known = map.get(outlet.riser)
    if (known === undefined) map.set(outlet.riser, [outlet])
    else known.push(outlet)
  }
  return map
}

/** A row taken so that every beginning of the new order is spread evenly over the old: the middle, the quarters, the eighths … */
function evenly<T>(row: readonly T[]): T[] {
  const bits = Math.max(1, Math.ceil(Math.log2(row.length + 1)))
  const key = (index: number): number => {
    let reversed = 0
    for (let bit = 0, left = index + 1; bit < bits; bit++, left >>= 1) reversed = reversed * 2 + (left & 1)
    return reversed
  }
  return row
    .map((one, index) => ({ one, key: key(index) }))
    .sort((a, b) => a.key - b.key)
    .map(({ one }) => one)
}
