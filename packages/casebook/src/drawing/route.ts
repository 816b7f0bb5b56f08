import type { Circuit, Pipe } from '../building/water-system.ts'
import type { Column, FloorRow, Layout, PlantBand, Point, Route, Spot } from './places.ts'
import { SIZES } from './measures.ts'
import { laneX, levelY } from './place-cells.ts'

type Placed = Omit<Layout, 'width' | 'height' | 'routes'>

interface Router {
  placed: Placed
  columns: ReadonlyMap<string, Column>
  floors: ReadonlyMap<number, FloorRow>
  plants: ReadonlyMap<string, PlantBand>
}

interface End {
  spot: Spot
  other: Spot
  pipe: Pipe
  leaving: boolean
}

/** The lines of all pipes: along lanes up the risers, along levels on the floors, along shared lines in the plant. */
export function routePipes(placed: Placed): Route[] {
  const router: Router = {
    placed,
    columns: new Map(placed.columns.map((one) => [one.riser, one])),
    floors: new Map(placed.floors.map((one) => [one.floor, one])),
    plants: new Map(placed.plants.map((one) => [one.side, one])),
  }
  const routes: Route[] = []
  const gathered = new Map<string, Route>()
  for (const pipe of placed.sorted.graph.pipes.values()) {
    const from = placed.spots.get(pipe.from)
    const to = placed.spots.get(pipe.to)
    if (from === undefined || to === undefined || from === to) continue
    const hidden = [from, to].filter((spot) => spot.role === 'hidden')
    if (hidden.length === 2 && sameCell(from, to)) continue
    const points = tidy(routeBetween(router, { pipe, from, to }))
    const route: Route = { pipes: [pipe.id], circuit: pipe.circuit, points }
    if (hidden.length === 0) routes.push(route)
    else gather({ gathered, routes }, route)
  }
  return routes
}

function gather({ gathered, routes }: { gathered: Map<string, Route>; routes: Route[] }, route: Route): void {
  const key = `${route.circuit} ${route.points.map(({ x, y }) => `${x},${y}`).join(' ')}`
  const same = gathered.get(key)
  if (same !== undefined) {
    same.pipes.push(...route.pipes)
    return
  }
  gathered.set(key, route)
  routes.push(route)
}

const sameCell = (a: Spot, b: Spot): boolean =>
  a.cell !== undefined && a.cell.floor === b.cell?.floor && a.cell.riser === b.cell.riser

function routeBetween(router: Router, { pipe, from, to }: { pipe: Pipe; from: Spot; to: Spot }): Point[] {
  const straight = besideEachOther(pipe, { from, to })
  if (straight !== undefined) return straight
  if (isTail(from, to)) return [from, to].map(({ x, y }) => ({ x, y }))
  const start = leadFrom(router, { spot: from, other: to, pipe, leaving: true })
  const end = leadFrom(router, { spot: to, other: from, pipe, leaving: false })
  return [...start, ...between(router, { a: start.at(-1), b: end.at(-1), from, to, pipe }), ...end.toReversed()]
}

/** From a valve to the outlet above it. */
const isTail = (a: Spot, b: Spot): boolean =>
  (a.role === 'valve' || b.role === 'valve') && a.x === b.x && sameCell(a, b)

/** Supply, treatment and tanks that stand side by side are joined straight. */
function besideEachOther(pipe: Pipe, { from, to }: { from: Spot; to: Spot }): Point[] | undefined {
  const near = Math.abs(from.x - to.x) <= SIZES.equipmentSlot && from.y === to.y
  if (from.role !== 'equipment' || to.role !== 'equipment' || !near || pipe.circuit !== 'cold') return undefined
  const [a, b] = from.x < to.x ? [from, to] : [to, from]
  const half = (spot: Spot): number => (spot.component.kind === 'supply-entry' ? 9 : SIZES.equipmentWidth / 2)
  return [
    { x: a.x + half(a), y: a.y },
    { x: b.x - half(b), y: b.y },
  ]
}

/** From a component to where its pipe joins a lane, a level or a shared line. */
function leadFrom(router: Router, end: End): Point[] {
  const { spot, other, pipe } = end
  if (spot.role === 'equipment') return leadFromEquipment(router, end)
  if (spot.role !== 'outlet' && spot.role !== 'valve' && spot.role !== 'hidden') return [{ x: spot.x, y: spot.y }]
  const column = router.columns.get(spot.cell?.riser ?? '')
  const floor = router.floors.get(spot.cell?.floor ?? 0)
  if (column === undefined || floor === undefined) return [{ x: spot.x, y: spot.y }]
  const y = levelY({ floor, column, circuit: pipe.circuit })
  const x = spot.role === 'hidden' ? spot.x : spot.x + stemOffset(router, end)
  const lead =
    spot.role === 'hidden'
      ? [{ x, y }]
      : [
          { x, y: spot.y + (spot.role === 'valve' ? 3 : 4) },
          { x, y },
        ]
  return sameCell(spot, other) ? lead : [...lead, { x: laneX(column, pipe.circuit), y }]
}

/** Hot and cold rise to an outlet side by side; a single pipe rises in the middle. */
function stemOffset({ placed }: Router, { spot, pipe }: End): number {
  const circuits = new Set(placed.sorted.graph.pipesAt(spot.component.id).map((one) => one.circuit))
  if (spot.role === 'valve') circuits.delete('tempered')
  if (circuits.size < 2) return 0
  return pipe.circuit === 'cold' ? 2.5 : -2.5
}

function leadFromEquipment({ plants }: Router, { spot, other, pipe, leaving }: End): Point[] {
  const band = plants.get(spot.plant ?? 'bottom')
  if (band === undefined) return [{ x: spot.x, y: spot.y }]
  const port = portOf(spot, { circuit: pipe.circuit, leaving })
  const behind =
    pipe.circuit === 'hot-return' &&
    (other.role === 'equipment' || (other.role === 'bus-junction' && other.y === band.backY))
  const busY = behind ? band.backY : (band.buses.get(pipe.circuit) ?? band.backY)
  const half = { x: halfWidth(spot), y: SIZES.equipmentHeight / 2 }
  if (port === 'top')
    return [
      { x: spot.x, y: spot.y - band.outwards * topOf(spot) },
      { x: spot.x, y: busY },
    ]
  const sign = port === 'left' ? -1 : 1
  const y = spot.y + band.outwards * (SMALL.has(spot.component.kind) ? 0 : half.y / 2)
  const side = spot.x + sign * SIZES.sidePort
  return [
    { x: spot.x + sign * half.x, y },
    { x: side, y },
    { x: side, y: busY },
  ]
}

/** Half the height of the sign drawn for a piece of plant. */
const topOf = ({ component }: Spot): number => (SMALL.has(component.kind) ? 10 : SIZES.equipmentHeight / 2)
const halfWidth = ({ component }: Spot): number => (SMALL.has(component.kind) ? 10 : SIZES.equipmentWidth / 2)
const SMALL: ReadonlySet<string> = new Set(['supply-entry', 'pump', 'mixing-valve'])

type Port = 'top' | 'left' | 'right'

function portOf({ component: { kind } }: Spot, { circuit, leaving }: { circuit: Circuit; leaving: boolean }): Port {
  if (kind === 'storage-heater' || kind === 'instant-heater')
    return circuit === 'cold' ? 'left' : circuit === 'hot-return' ? 'right' : 'top'
  if (kind === 'mixing-valve') return circuit === 'hot' ? 'left' : circuit === 'tempered' ? 'top' : 'right'
  if (kind === 'pump') return leaving ? 'right' : 'left'
  return leaving ? 'top' : 'left'
}

interface Gap {
  a: Point | undefined
  b: Point | undefined
  from: Spot
  to: Spot
  pipe: Pipe
}

/** The corners between two ends that are on lanes, levels or shared lines already. */
function between({ columns, floors, plants }: Router, { a, b, from, to, pipe }: Gap): Point[] {
  if (a === undefined || b === undefined) return []
  const inPlant = (spot: Spot): boolean => spot.cell === undefined
  const otherColumn = !inPlant(from) && !inPlant(to) && from.cell?.riser !== to.cell?.riser
  if (otherColumn) {
    const y = (floors.get(to.cell?.floor ?? 0)?.line ?? b.y) + CROSSING[pipe.circuit]
    return [
      { x: a.x, y },
      { x: b.x, y },
    ]
  }
  if (a.x === b.x || a.y === b.y) return []
  if (inPlant(from) && inPlant(to)) return acrossPlants({ plants, pipe }, { a, b, from, to })
  if (inPlant(from) !== inPlant(to)) {
    const [bus, floorEnd, spot] = inPlant(from) ? [a, b, to] : [b, a, from]
    const column = columns.get(spot.cell?.riser ?? '')
    const own = plants.get((inPlant(from) ? from : to).plant ?? 'bottom')?.buses.get(pipe.circuit) ?? bus.y
    const x = column === undefined ? floorEnd.x : laneX(column, pipe.circuit)
    const corners = [
      { x: bus.x, y: own },
      { x, y: own },
      { x, y: floorEnd.y },
    ]
    return inPlant(from) ? corners : corners.toReversed()
  }
  return [pipe.circuit === 'hot-return' ? { x: b.x, y: a.y } : { x: a.x, y: b.y }]
}

/** Pipes from riser to riser on a floor run just below the floor's line. */
const CROSSING: Record<Circuit, number> = { hot: 4, cold: 8, tempered: 4, 'hot-return': 12 }

function acrossPlants(
  { plants, pipe }: { plants: ReadonlyMap<string, PlantBand>; pipe: Pipe },
  { a, b, from, to }: { a: Point; b: Point; from: Spot; to: Spot },
): Point[] {
  if (from.plant === to.plant) return [{ x: a.x, y: b.y }]
  const busOf = (spot: Spot, point: Point): number => plants.get(spot.plant ?? '')?.buses.get(pipe.circuit) ?? point.y
  const x = SIZES.gutter - GUTTER_LANES[pipe.circuit]
  return [
    { x: a.x, y: busOf(from, a) },
    { x, y: busOf(from, a) },
    { x, y: busOf(to, b) },
    { x: b.x, y: busOf(to, b) },
  ]
}

/** Pipes from plant to plant run left of the first riser. */
const GUTTER_LANES: Record<Circuit, number> = { cold: 14, hot: 20, tempered: 26, 'hot-return': 32 }

/** Without doubled points and points in the middle of a straight line. */
function tidy(points: readonly Point[]): Point[] {
  const kept: Point[] = []
  for (const point of points) {
    const last = kept.at(-1)
    const before = kept.at(-2)
    if (last !== undefined && last.x === point.x && last.y === point.y) continue
    const between = (one: number, mid: number, two: number): boolean => (mid - one) * (two - mid) >= 0
    const straight =
      last !== undefined &&
      before !== undefined &&
      ((before.x === last.x && last.x === point.x && between(before.y, last.y, point.y)) ||
        (before.y === last.y && last.y === point.y && between(before.x, last.x, point.x)))
    if (straight) kept.pop()
    kept.push(point)
  }
  return kept
}
