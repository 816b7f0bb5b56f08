import type { Circuit } from '../building/water-system.ts'
import type { Column, FloorRow, Group, Placing } from './places.ts'
import { SIZES } from './measures.ts'
import type { Cell } from './sort-parts.ts'
import { cellKey, circuitAt } from './sort-parts.ts'

const LEVELS: readonly Circuit[] = ['hot-return', 'hot', 'tempered', 'cold']

/** Places what stands on the floors, and gathers the outlets of collapsed places into counted groups. */
export function placeCells(placing: Placing): Group[] {
  const columns = new Map(placing.columns.map((column) => [column.riser, column]))
  const floors = new Map(placing.floors.map((floor) => [floor.floor, floor]))
  const groups: Group[] = []
  for (const cell of placing.sorted.cells.values()) {
    const column = columns.get(cell.riser)
    const floor = floors.get(cell.floor)
    if (column === undefined || floor === undefined) continue
    const at = { cell, column, floor }
    placeJunctions(placing, at)
    if (placing.measures.collapsed.has(cellKey(cell))) groups.push(gatherCell(placing, at))
    else placeItems(placing, at)
  }
  return groups.sort(
    (a, b) => b.floor - a.floor || (columns.get(a.riser)?.left ?? 0) - (columns.get(b.riser)?.left ?? 0),
  )
}

export interface CellPlace {
  cell: Cell
  column: Column
  floor: FloorRow
}

/** The height at which the branch of a circuit leaves its riser on a floor. */
export function levelY(given: { floor: FloorRow; column: Column; circuit: Circuit }): number {
  const here = LEVELS.filter((circuit) => circuit === 'hot-return' || given.column.lanes.has(circuit))
  const index = Math.max(1, here.indexOf(given.circuit))
  return given.floor.headY + SIZES.stem + (index - 1) * SIZES.level
}

/** The lane of a circuit in a riser; a circuit without one shares the first. */
export const laneX = (column: Column, circuit: Circuit): number => column.lanes.get(circuit) ?? column.left

function placeJunctions({ sorted, spots }: Placing, { cell, column, floor }: CellPlace): void {
  for (const component of cell.junctions) {
    const circuit = circuitAt(sorted.graph, component.id)
    const x = laneX(column, circuit)
    const y = levelY({ floor, column, circuit })
    spots.set(component.id, { component, role: 'riser-junction', x, y, cell: { floor: cell.floor, riser: cell.riser } })
  }
}

function placeItems({ sorted, measures, spots }: Placing, { cell, column, floor }: CellPlace): void {
  const where = { floor: cell.floor, riser: cell.riser }
  const slotX = (index: number): number => column.outletsLeft + (index + 0.5) * measures.slot - 8
  cell.items.forEach((component, index) => {
    const x = slotX(index)
    spots.set(component.id, { component, role: 'outlet', x, y: floor.headY, cell: where })
    const valve = cell.valves.get(component.id)
    if (valve !== undefined)
      spots.set(valve.id, { component: valve, role: 'valve', x, y: floor.headY + 10, cell: where })
  })
  const taken = new Map<Circuit, number>()
  for (const component of cell.tees) {
    const circuit = circuitAt(sorted.graph, component.id)
    const index = taken.get(circuit) ?? 0
    taken.set(circuit, index + 1)
    const fed = cell.items.findIndex((item) =>
      sorted.graph.pipesAt(item.id).some((pipe) => pipe.from === component.id || pipe.to === component.id),
    )
    const x = fed >= 0 ? slotX(fed) : column.outletsLeft - 10 + index * 4
    spots.set(component.id, { component, role: 'tee', x, y: levelY({ floor, column, circuit }), cell: where })
  }
}

const GROUP_HEIGHT = 24

function gatherCell({ spots }: Placing, { cell, column, floor }: CellPlace): Group {
  const centre = floor.headY + SIZES.stem + SIZES.level / 2
  const group = {
    floor: cell.floor,
    riser: cell.riser,
    outlets: cell.items,
    left: column.outletsLeft - 8,
    top: centre - GROUP_HEIGHT / 2,
    width: SIZES.groupWidth,
    height: GROUP_HEIGHT,
  }
  const where = { floor: cell.floor, riser: cell.riser }
  for (const component of [...cell.items, ...cell.valves.values(), ...cell.tees])
    spots.set(component.id, { component, role: 'hidden', x: group.left, y: centre, cell: where })
  return group
}
