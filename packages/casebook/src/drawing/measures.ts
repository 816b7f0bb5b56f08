import { isOutlet } from '../building/water-system.ts'
import type { Cell, SortedParts } from './sort-parts.ts'
import { cellKey } from './sort-parts.ts'

export interface LayoutOptions {
  /** `all` draws every outlet, `collapsed` a counted group a floor and riser, `auto` what stays readable. */
  detail?: 'auto' | 'all' | 'collapsed'
  /** Floors of risers drawn outlet by outlet although the rest is collapsed. */
  expanded?: readonly { floor: number; riser: string }[]
}

/** Sizes of the drawing in its own units, which are CSS pixels at full size. */
export interface Measures {
  /** Distance from outlet to outlet. */
  slot: number
  rows: ReadonlyMap<number, Row>
  collapsed: ReadonlySet<string>
}

export interface Row {
  height: number
  /** From the top of a floor to the outlets. */
  headDrop: number
  /** Room numbers under the outlets. */
  rooms: boolean
}

export const SIZES = {
  gutter: 120,
  margin: 24,
  lane: 9,
  laneToOutlets: 24,
  columnGap: 32,
  headRow: 44,
  stem: 19,
  level: 7,
  groupWidth: 90,
  busGap: 11,
  floorsToBus: 30,
  busToEquipment: 34,
  equipmentHeight: 58,
  equipmentWidth: 50,
  equipmentSlot: 128,
  sidePort: 54,
  labelHeight: 34,
} as const

/** A drawing wider than this is collapsed in `auto`; a full-width screen shows it without panning. */
const WIDEST_OPEN = 1900
/** More outlets than this are collapsed in `auto`, however they are spread. */
const MOST_OPEN = 480
/** A single place with more outlets than this is collapsed in `auto`. */
const MOST_IN_CELL = 16

/** Chooses spacing and what to collapse, from how many outlets stand side by side. */
export function measure(sorted: SortedParts, options: LayoutOptions): Measures {
  const detail = options.detail ?? 'auto'
  const cells = [...sorted.cells.values()]
  const outlets = cells.reduce((sum, cell) => sum + cell.items.length, 0)
  const open = widthWith(sorted, { slot: 26, collapsed: new Set() })
  const collapseAll = detail === 'collapsed' || (detail === 'auto' && (open > WIDEST_OPEN || outlets > MOST_OPEN))
  const expanded = new Set((options.expanded ?? []).map(cellKey))
  const gathers = (cell: Cell): boolean =>
    cell.items.filter(isOutlet).length > 1 &&
    !expanded.has(cellKey(cell)) &&
    (collapseAll || (detail === 'auto' && cell.items.length > MOST_IN_CELL))
  const collapsed = new Set(cells.filter(gathers).map(cellKey))
  const slot = [44, 36, 30].find((one) => widthWith(sorted, { slot: one, collapsed }) <= 1360) ?? 26
  const crowded = sorted.floors.length > 12
  const rooms = slot >= 30
  const openFloor = { height: (crowded ? 66 : 76) + (rooms ? 12 : 0), headDrop: 28, rooms }
  const isGathered = (cell: Cell): boolean => collapsed.has(cellKey(cell))
  const closed = new Set(cells.filter(isGathered).map((cell) => cell.floor))
  for (const cell of cells) if (!isGathered(cell) && cell.items.length > 1) closed.delete(cell.floor)
  const rows = new Map(sorted.floors.map((floor) => [floor, closed.has(floor) ? CLOSED_FLOOR : openFloor]))
  return { slot, rows, collapsed }
}

/** A floor whose outlets are all counted takes less height. */
const CLOSED_FLOOR: Row = { height: 44, headDrop: 4, rooms: false }

function widthWith(sorted: SortedParts, given: { slot: number; collapsed: ReadonlySet<string> }): number {
  const widths = [...columnWidths(sorted, given).values()]
  return SIZES.gutter + widths.reduce((sum, width) => sum + width + SIZES.columnGap, 0)
}

/** The width of each riser with the outlets beside it. */
export function columnWidths(
  sorted: SortedParts,
  given: { slot: number; collapsed: ReadonlySet<string> },
): Map<string, number> {
  const base = (riser: string): number => laneWidth(sorted, riser) + SIZES.laneToOutlets
  const widths = new Map(sorted.risers.map((riser) => [riser, base(riser) + SIZES.groupWidth]))
  for (const cell of sorted.cells.values()) {
    if (given.collapsed.has(cellKey(cell))) continue
    const width = base(cell.riser) + cell.items.length * given.slot
    widths.set(cell.riser, Math.max(widths.get(cell.riser) ?? 0, width))
  }
  return widths
}

export const laneWidth = (sorted: SortedParts, riser: string): number =>
  Math.max(0, (sorted.lanes.get(riser)?.length ?? 0) - 1) * SIZES.lane
