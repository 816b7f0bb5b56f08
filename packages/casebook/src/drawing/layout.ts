import { type FloorNames, floorName } from '../building/floor-words.ts'
import type { WaterSystem } from '../building/water-system.ts'
import type { LayoutOptions, Measures } from './measures.ts'
import { columnWidths, laneWidth, measure, SIZES } from './measures.ts'
import { placePlants } from './place-plant.ts'
import { placeCells } from './place-cells.ts'
import type { Column, FloorRow, Layout, Spot } from './places.ts'
import { routePipes } from './route.ts'
import type { SortedParts } from './sort-parts.ts'
import { NO_FLOOR, NO_RISER, sortParts } from './sort-parts.ts'

/**
 * Gives every component its place as the trade draws it: floors across, risers up, plant below or on the roof, outlets
 * hanging off their riser. Wanted wherever the drawing is shown: app, command and report lay it out with this.
 *
 * The same description always gives the same places, whatever the order of its lists. Components without a riser stand
 * in a column of their own on the right, those without a floor on a row of their own below.
 *
 * @param system any readable water system, also one with problems: pipes that end nowhere are left out
 */
export function layoutSystem(system: WaterSystem, options: LayoutOptions = {}): Layout {
  const sorted = sortParts(system)
  const measures = measure(sorted, options)
  const columns = placeColumns(sorted, measures)
  const columnsRight = columns.at(-1)?.right ?? SIZES.gutter
  const roof = sorted.plants.find((plant) => plant.side === 'roof')
  const names = new Map(system.floors?.map((one) => [one.floor, one.name]))
  const spots = new Map<string, Spot>()
  const plants = placePlants({ sorted, columns, spots, names })
  const floorsTop = SIZES.headRow + (roof === undefined ? 0 : plants.height('roof'))
  const floors = placeFloors({ sorted, measures, floors: system.floors }, floorsTop)
  const floorsBottom = floors.at(-1)?.line ?? floorsTop
  const bands = plants.settle({ roofBottom: floorsTop, bottomTop: floorsBottom })
  const groups = placeCells({ sorted, measures, floors, columns, spots })
  const placed = { sorted, measures, floors, columns, plants: bands, spots, groups }
  const bottom = bands.find((band) => band.side === 'bottom')?.bottom ?? floorsBottom + SIZES.margin
  const width = Math.max(columnsRight, plants.right) + SIZES.margin
  return { ...placed, width, height: bottom + SIZES.margin, routes: routePipes(placed) }
}

function placeColumns(sorted: SortedParts, measures: Measures): Column[] {
  const widths = columnWidths(sorted, measures)
  let left: number = SIZES.gutter
  return sorted.risers.map((riser) => {
    const lanes = new Map((sorted.lanes.get(riser) ?? []).map((circuit, index) => [circuit, left + index * SIZES.lane]))
    const column = {
      riser,
      label: riser === NO_RISER ? 'no riser' : riser,
      left,
      right: left + (widths.get(riser) ?? 0),
      lanes,
      outletsLeft: left + laneWidth(sorted, riser) + SIZES.laneToOutlets,
    }
    left = column.right + SIZES.columnGap
    return column
  })
}

interface Naming {
  sorted: SortedParts
  measures: Measures
  floors: FloorNames
}

function placeFloors({ sorted, measures, floors }: Naming, floorsTop: number): FloorRow[] {
  let top = floorsTop
  return sorted.floors.map((floor) => {
    const { height = 0, headDrop = 0 } = measures.rows.get(floor) ?? {}
    const row = {
      floor,
      label: floor === NO_FLOOR ? 'no floor' : floorName(floors, floor),
      top,
      line: top + height - 8,
      headY: top + headDrop,
    }
    top += height
    return row
  })
}
