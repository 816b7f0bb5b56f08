import type { NetworkDraft } from './network-draft.ts'
import type { PlacedComponent, PlacedPipe } from './compiled.ts'

/** How many of the parts that are left out are named. */
const NAMED_PARTS = 5

/**
 * Leaves out what no water reaches, and says so: parts joined to each other and to no supply. Water comes from the supply entries
 * through pipes of any kind, and through a mixing valve once it has come to both its sides.
 */
export function leaveUnreached(draft: NetworkDraft): void {
  const reached = reachedNodes(draft)
  if (reached.size === draft.nodes.length) return
  const ids = draft.system.components.filter(({ id }) => !isReached(draft.placed.get(id), reached)).map(({ id }) => id)
  const named = ids.slice(0, NAMED_PARTS)
  for (const id of named)
    draft.cannotSay.push({ at: id, why: 'no water comes to it from a supply entry', needs: 'the pipes that join it' })
  if (ids.length > named.length)
    draft.cannotSay.push({
      at: 'components',
      why: `no water comes to ${ids.length - named.length} more parts`,
      needs: 'the pipes that join them',
    })
  renumber(draft, reached)
}

function reachedNodes({ nodes, pipes, valves }: NetworkDraft): Set<number> {
  const next = new Map<number, number[]>()
  const link = (a: number, b: number): void => {
    const list = next.get(a)
    if (list === undefined) next.set(a, [b])
    else list.push(b)
  }
  for (const { from, to } of pipes) {
    link(from, to)
    link(to, from)
  }
  const valveOf = new Map(
    valves.flatMap((valve) => [[valve.hotNode, valve] as const, [valve.coldNode, valve] as const]),
  )
  const open = nodes.flatMap((node, index) => (node.kind === 'source' ? [index] : []))
  const reached = new Set(open)
  const reach = (node: number): void => {
    if (reached.has(node)) return
    reached.add(node)
    open.push(node)
  }
  for (let node = open.pop(); node !== undefined; node = open.pop()) {
    for (const other of next.get(node) ?? []) reach(other)
    const valve = valveOf.get(node)
    if (valve !== undefined && reached.has(valve.hotNode) && reached.has(valve.coldNode)) reach(valve.mixedNode)
  }
  return reached
}

function isReached(placed: PlacedComponent | undefined, reached: ReadonlySet<number>): boolean {
  if (placed === undefined) return false
  const nodes = [placed.node, ...Object.values(placed.circuits)].filter((node) => node !== undefined)
  return nodes.length > 0 && nodes.every((node) => reached.has(node))
}

/** Takes the nodes that are not reached out of every list, and gives the others their new places. */
function renumber(draft: NetworkDraft, reached: ReadonlySet<number>): void {
  const nodes = newPlaces(draft.nodes, (_, index) => reached.has(index))
  const at = (node: number): number => nodes.get(node) ?? 0
  const pipes = newPlaces(draft.pipes, ({ from }) => reached.has(from))
  for (const pipe of draft.pipes) Object.assign(pipe, { from: at(pipe.from), to: at(pipe.to) })
  newPlaces(draft.valves, ({ mixedNode, hotNode, coldNode }) =>
    [mixedNode, hotNode, coldNode].every((node) => reached.has(node)),
  )
  for (const valve of draft.valves)
    Object.assign(valve, { hotNode: at(valve.hotNode), coldNode: at(valve.coldNode), mixedNode: at(valve.mixedNode) })
  const outlets = newPlaces(draft.outlets, ({ hotNode, coldNode }) =>
    [hotNode, coldNode].every((node) => node === undefined || reached.has(node)),
  )
  for (const outlet of draft.outlets) {
    const { hotNode, coldNode } = outlet
    Object.assign(outlet, {
      hotNode: hotNode === undefined ? undefined : at(hotNode),
      coldNode: coldNode === undefined ? undefined : at(coldNode),
    })
  }
  replace(draft.placed, (placed) => (isReached(placed, reached) ? moved(placed, { at, outlets }) : undefined))
  replace(draft.placedPipes, ({ pipe, turned }): PlacedPipe | undefined => {
    const place = pipes.get(pipe)
    return place === undefined ? undefined : { pipe: place, turned }
  })
}

function moved(
  { node, circuits, outlet }: PlacedComponent,
  { at, outlets }: { at: (node: number) => number; outlets: ReadonlyMap<number, number> },
): PlacedComponent {
  const ports = Object.entries(circuits).map(([circuit, port]) => [circuit, at(port)])
  return {
    node: node === undefined ? undefined : at(node),
    circuits: Object.fromEntries(ports) as PlacedComponent['circuits'],
    outlet: outlet === undefined ? undefined : outlets.get(outlet),
  }
}

/** Takes out of the list what is not kept; the places of the rest, by their old ones. */
function newPlaces<T>(list: T[], isKept: (item: T, index: number) => boolean): Map<number, number> {
  const places = new Map<number, number>()
  const kept = list.filter((item, index) => {
    const keep = isKept(item, index)
    if (keep) places.set(index, places.size)
    return keep
  })
  list.length = 0
  for (const item of kept) list.push(item)
  return places
}

function replace<T>(map: Map<string, T>, change: (value: T) => T | undefined): void {
  for (const [id, value] of map) {
    const changed = change(value)
    if (changed === undefined) map.delete(id)
    else map.set(id, changed)
  }
}
