import { otherEnd } from '../building/graph.ts'
import type { Circuit, Component } from '../building/water-system.ts'
import type { Column, PlantBand, Spot } from './places.ts'
import { SIZES } from './measures.ts'
import { natural } from './order.ts'
import { laneX } from './place-cells.ts'
import type { Plant, PlantSide, SortedParts } from './sort-parts.ts'
import { circuitAt } from './sort-parts.ts'

interface PlantInput {
  sorted: SortedParts
  columns: readonly Column[]
  spots: Map<string, Spot>
  names: ReadonlyMap<number, string>
}

interface PlacedPlants {
  height: (side: PlantSide) => number
  right: number
  /** Gives the bands their heights once the floors stand. */
  settle: (edges: { roofBottom: number; bottomTop: number }) => PlantBand[]
}

const BUS_ORDER: readonly Circuit[] = ['hot-return', 'tempered', 'hot', 'cold']
const BACK_GAP = 12

const ROW: Partial<Record<Component['kind'], number>> = {
  'supply-entry': 0,
  treatment: 1,
  'cold-tank': 2,
  'storage-heater': 4,
  'instant-heater': 4,
  'mixing-valve': 5,
  pump: 6,
}

/** Places entries, tanks, heaters, valves and pumps in a row, and the lines each circuit shares between them and the risers. */
export function placePlants(input: PlantInput): PlacedPlants {
  const left = (input.columns[0]?.left ?? SIZES.gutter) - 8
  const longest = input.sorted.plants.reduce((most, plant) => Math.max(most, plant.equipment.length), 0)
  const right = left + longest * SIZES.equipmentSlot
  const heights = new Map(input.sorted.plants.map((plant) => [plant.side, bandHeight(input.sorted, plant)]))
  return {
    height: (side) => heights.get(side) ?? 0,
    right,
    settle: ({ roofBottom, bottomTop }) =>
      input.sorted.plants.map((plant) => {
        const outwards = plant.side === 'bottom' ? 1 : -1
        const edge = plant.side === 'bottom' ? bottomTop : roofBottom
        return placeBand({ ...input, plant, left, outwards, edge })
      }),
  }
}

const busesOf = (sorted: SortedParts, plant: Plant): Circuit[] => {
  const here = new Set<Circuit>()
  for (const one of [...plant.equipment, ...plant.junctions])
    for (const pipe of sorted.graph.pipesAt(one.id)) here.add(pipe.circuit)
  return BUS_ORDER.filter((circuit) => here.has(circuit))
}

function bandHeight(sorted: SortedParts, plant: Plant): number {
  const shared = SIZES.floorsToBus + busesOf(sorted, plant).length * SIZES.busGap
  if (plant.equipment.length === 0) return shared
  return shared + SIZES.busToEquipment + SIZES.equipmentHeight + SIZES.labelHeight + BACK_GAP
}

interface BandInput extends PlantInput {
  plant: Plant
  left: number
  outwards: 1 | -1
  /** The y where the floors end. */
  edge: number
}

function placeBand(input: BandInput): PlantBand {
  const { sorted, plant, outwards, edge, spots, left } = input
  const circuits = busesOf(sorted, plant)
  const away = (distance: number): number => edge + outwards * distance
  const buses = new Map(circuits.map((circuit, index) => [circuit, away(SIZES.floorsToBus + index * SIZES.busGap)]))
  const toEquipment = SIZES.floorsToBus + circuits.length * SIZES.busGap + SIZES.busToEquipment
  const centreY = away(toEquipment + SIZES.equipmentHeight / 2)
  const row = plant.equipment.toSorted((a, b) => (ROW[a.kind] ?? 3) - (ROW[b.kind] ?? 3) || natural(a.id, b.id))
  row.forEach((component, index) => {
    const x = left + (index + 0.5) * SIZES.equipmentSlot
    spots.set(component.id, { component, role: 'equipment', x, y: centreY, plant: plant.side })
  })
  const backY = away(toEquipment + SIZES.equipmentHeight + SIZES.labelHeight)
  for (const component of plant.junctions) placeJoint(input, { component, buses, backY })
  const floors = plant.equipment.flatMap((one) => one.floor ?? [])
  const named = floors.map((floor) => input.names.get(floor)).find((name) => name !== undefined)
  const label = named ?? (plant.side === 'roof' ? 'Roof plant' : 'Plant')
  const ends = [edge, away(bandHeight(sorted, plant))]
  return { side: plant.side, label, top: Math.min(...ends), bottom: Math.max(...ends), buses, backY, outwards }
}

interface Joint {
  component: Component
  buses: ReadonlyMap<Circuit, number>
  backY: number
}

function placeJoint(input: BandInput, { component, buses, backY }: Joint): void {
  const { sorted, columns, spots, plant } = input
  const circuit = circuitAt(sorted.graph, component.id)
  const spot = { component, role: 'bus-junction' as const, plant: plant.side }
  if (sorted.headers.has(component.id)) {
    const column = columns.find((one) => one.riser === component.riser)
    const x = column === undefined ? input.left : laneX(column, circuit)
    spots.set(component.id, { ...spot, x, y: buses.get(circuit) ?? backY })
    return
  }
  const others = sorted.graph.pipesAt(component.id).map((pipe) => otherEnd(pipe, component.id))
  const behind = circuit === 'hot-return' && !others.some((id) => sorted.headers.has(id))
  const beside = others.map((id) => spots.get(id)).filter((other) => other?.role === 'equipment')
  const [near] = beside.sort((a, b) => (a?.x ?? 0) - (b?.x ?? 0))
  const x = (near?.x ?? input.left) + (behind ? SIZES.sidePort : 0)
  spots.set(component.id, { ...spot, x, y: behind ? backY : (buses.get(circuit) ?? backY) })
}
