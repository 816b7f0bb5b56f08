import type { SystemGraph } from '../building/graph.ts'
import { buildGraph, otherEnd } from '../building/graph.ts'
import type { Circuit, Component, Pipe, WaterSystem } from '../building/water-system.ts'
import { COMPONENT_KINDS, isOutlet } from '../building/water-system.ts'
import { natural } from './order.ts'

/** Stands for a floor or riser that was not given. */
export const NO_RISER = ''
export const NO_FLOOR = Number.NEGATIVE_INFINITY

export type PlantSide = 'bottom' | 'roof'

/** Everything on one floor of one riser. */
export interface Cell {
  floor: number
  riser: string
  /** Outlets, devices and plant that stands among them, in drawing order. */
  items: Component[]
  /** Where the circuits pass or leave the riser. */
  junctions: Component[]
  /** Junctions along the branch, from the riser outwards. */
  tees: Component[]
  /** Mixing valves at an outlet, by the outlet's id. */
  valves: Map<string, Component>
}

export interface Plant {
  side: PlantSide
  /** Entry, treatment, tanks, heaters, valves, pumps: left to right. */
  equipment: Component[]
  /** Junctions among the plant and past the risers. */
  junctions: Component[]
}

/** A water system sorted into the places of the drawing. */
export interface SortedParts {
  graph: SystemGraph
  /** From the top. */
  floors: number[]
  /** From the left. */
  risers: string[]
  cells: Map<string, Cell>
  plants: Plant[]
  headers: Set<string>
  lanes: ReadonlyMap<string, readonly Circuit[]>
}

export const cellKey = (place: { floor: number; riser: string }): string => `${place.floor}|${place.riser}`

/** The circuit most of a junction's pipes belong to. */
export function circuitAt(graph: SystemGraph, id: string): Circuit {
  const circuits = new Set(graph.pipesAt(id).map((pipe) => pipe.circuit))
  return ORDER_OF_SAY.find((circuit) => circuits.has(circuit)) ?? 'cold'
}

const ORDER_OF_SAY: readonly Circuit[] = ['cold', 'hot', 'tempered', 'hot-return']

/** Sorts every component into a cell or a plant. Depends only on what is described, not on the order of the lists. */
export function sortParts(system: WaterSystem): SortedParts {
  const graph = buildGraph({ ...system, pipes: system.pipes.toSorted((a, b) => natural(a.id, b.id)) })
  const components = [...graph.components.values()].sort(inDrawingOrder)
  const bounds = boundsOf(components, system.plantPosition ?? 'bottom')
  const sorted: SortedParts = {
    graph,
    floors: [],
    risers: [],
    cells: new Map(),
    plants: [],
    headers: new Set(),
    lanes: new Map(),
  }
  for (const component of components) sortOne({ sorted, bounds }, component)
  for (const cell of sorted.cells.values()) settleCell(sorted, cell)
  const cells = [...sorted.cells.values()]
  sorted.floors = [...new Set(cells.map((cell) => cell.floor))].sort((a, b) => b - a)
  const headed = [...sorted.headers].map((id) => graph.components.get(id)?.riser ?? NO_RISER)
  const named = [...cells.map((cell) => cell.riser), ...headed].filter((riser) => riser !== NO_RISER)
  sorted.risers = [...new Set(named)].sort(natural)
  if (cells.some((cell) => cell.riser === NO_RISER)) sorted.risers.push(NO_RISER)
  sorted.lanes = findLanes(sorted)
  return sorted
}

const KIND_RANK = new Map<string, number>(COMPONENT_KINDS.map((kind, index) => [kind, index]))

/** By room, then kind, then id; plant by the way the water takes. */
function inDrawingOrder(a: Component, b: Component): number {
  return (
    natural(a.room ?? '', b.room ?? '') ||
    (KIND_RANK.get(a.kind) ?? 0) - (KIND_RANK.get(b.kind) ?? 0) ||
    natural(a.id, b.id)
  )
}

interface Bounds {
  lowest: number
  highest: number
  plantFloors: ReadonlySet<number>
  otherwise: PlantSide
}

function boundsOf(components: readonly Component[], otherwise: PlantSide): Bounds {
  const outletFloors = components.filter(isOutlet).flatMap((one) => one.floor ?? [])
  const plant = components.filter((one) => !isOutlet(one) && one.kind !== 'junction' && one.riser === undefined)
  return {
    lowest: outletFloors.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY),
    highest: outletFloors.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY),
    plantFloors: new Set(plant.flatMap((one) => one.floor ?? [])),
    otherwise,
  }
}

interface Sorting {
  sorted: SortedParts
  bounds: Bounds
}

function sortOne({ sorted, bounds }: Sorting, component: Component): void {
  if (isOutlet(component)) {
    cellFor(sorted, component).items.push(component)
    return
  }
  const side = plantSide(bounds, component.floor)
  const isJoint = component.kind === 'junction'
  if (component.riser === undefined && side !== undefined) {
    const plant = plantFor(sorted, side)
    ;(isJoint ? plant.junctions : plant.equipment).push(component)
  } else if (isJoint && isHeader({ sorted, bounds }, component)) {
    sorted.headers.add(component.id)
    plantFor(sorted, side ?? bounds.otherwise).junctions.push(component)
  } else if (isJoint) cellFor(sorted, component).junctions.push(component)
  else cellFor(sorted, component).items.push(component)
}

function plantSide(bounds: Bounds, floor: number | undefined): PlantSide | undefined {
  if (floor === undefined) return bounds.otherwise
  if (floor <= bounds.lowest) return 'bottom'
  return floor > bounds.highest ? 'roof' : undefined
}

/** A junction on the main past the risers: joined to the plant or to another riser, on a floor of the plant. */
function isHeader({ sorted, bounds }: Sorting, component: Component): boolean {
  const { floor, riser, id } = component
  const onPlantFloor = floor === undefined || bounds.plantFloors.has(floor) || plantOnly(bounds, floor)
  if (!onPlantFloor) return false
  return sorted.graph.pipesAt(id).some((pipe) => {
    const other = sorted.graph.components.get(otherEnd(pipe, id))
    return other !== undefined && !isOutlet(other) && other.riser !== riser
  })
}

const plantOnly = (bounds: Bounds, floor: number): boolean => floor < bounds.lowest || floor > bounds.highest

function cellFor(sorted: SortedParts, component: Component): Cell {
  const place = { floor: component.floor ?? NO_FLOOR, riser: component.riser ?? NO_RISER }
  const key = cellKey(place)
  const cell = sorted.cells.get(key) ?? { ...place, items: [], junctions: [], tees: [], valves: new Map() }
  sorted.cells.set(key, cell)
  return cell
}

function plantFor(sorted: SortedParts, side: PlantSide): Plant {
  const found = sorted.plants.find((plant) => plant.side === side)
  if (found !== undefined) return found
  const plant: Plant = { side, equipment: [], junctions: [] }
  sorted.plants.push(plant)
  sorted.plants.sort((a, b) => natural(a.side, b.side))
  return plant
}

/** Sets the valves at outlets apart, and the junctions along the branch from those on the riser. */
function settleCell(sorted: SortedParts, cell: Cell): void {
  const inside = new Set([...cell.items, ...cell.junctions].map((one) => one.id))
  const outlets = new Set(cell.items.filter(isOutlet).map((one) => one.id))
  for (const valve of cell.items.filter((one) => one.kind === 'mixing-valve')) {
    const fed = sorted.graph.pipesAt(valve.id).map((pipe) => otherEnd(pipe, valve.id))
    const [outlet, ...more] = fed.filter((id) => outlets.has(id))
    if (outlet !== undefined && more.length === 0 && !cell.valves.has(outlet)) cell.valves.set(outlet, valve)
  }
  const set = new Set(cell.valves.values())
  cell.items = cell.items.filter((item) => !set.has(item))
  const leaves = (one: Component): boolean =>
    sorted.graph.pipesAt(one.id).some((pipe) => !inside.has(otherEnd(pipe, one.id)))
  const onRiser = cell.junctions.filter(leaves)
  cell.tees = cell.junctions.filter((one) => !onRiser.includes(one))
  cell.junctions = onRiser
}

/** The circuits present in each riser, in the order of their lanes from the left. */
function findLanes(sorted: SortedParts): Map<string, Circuit[]> {
  const present = new Map<string, Set<Circuit>>(sorted.risers.map((riser) => [riser, new Set()]))
  const note = (riser: string, circuit: Circuit): void => void present.get(riser)?.add(circuit)
  for (const cell of sorted.cells.values()) {
    for (const one of [...cell.items, ...cell.junctions])
      for (const pipe of sorted.graph.pipesAt(one.id))
        if (!isValveTail(cell, { one, pipe })) note(cell.riser, pipe.circuit)
    for (const valve of cell.valves.values())
      for (const pipe of sorted.graph.pipesAt(valve.id)) if (pipe.circuit !== 'tempered') note(cell.riser, pipe.circuit)
  }
  for (const id of sorted.headers) note(sorted.graph.components.get(id)?.riser ?? NO_RISER, circuitAt(sorted.graph, id))
  return new Map([...present].map(([riser, here]) => [riser, LANE_ORDER.filter((circuit) => here.has(circuit))]))
}

/** The short pipe from a valve at an outlet to the outlet takes no lane. */
const isValveTail = (cell: Cell, { one, pipe }: { one: Component; pipe: Pipe }): boolean =>
  pipe.circuit === 'tempered' && cell.valves.get(one.id)?.id === otherEnd(pipe, one.id)

const LANE_ORDER: readonly Circuit[] = ['hot-return', 'tempered', 'hot', 'cold']
