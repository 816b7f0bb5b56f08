import { componentName, kindWord } from '../building/labels.ts'
import type { Circuit, WaterSystem } from '../building/water-system.ts'
import { isOutlet } from '../building/water-system.ts'
import { drawEquipment } from './draw-plant.ts'
import type { Layer } from './layers.ts'
import { layerShapes } from './layers.ts'
import { layoutSystem } from './layout.ts'
import { legendShapes } from './legend.ts'
import type { LayoutOptions } from './measures.ts'
import { mergeLines } from './merge-lines.ts'
import { SIZES } from './measures.ts'
import { outletGlyph } from './outlet-glyph.ts'
import type { Column, Group, Layout, Route, Spot } from './places.ts'
import type { Scene, Shape } from './scene.ts'
import { pathThrough, tenth, textWidth } from './scene.ts'
import { washShapes } from './washes.ts'
import { counted } from '../units/counted.ts'
import { type DisplayUnits, METRIC_UNITS } from '../units/display-units.ts'

export interface SceneOptions extends LayoutOptions {
  layer?: Layer
  /** Explain circuits, outlets and marks under the drawing; true unless told otherwise. */
  legend?: boolean
  /** Lay out once and draw several layers on it. */
  layout?: Layout
  /** The units of volumes, temperatures and flows beside the plant; those of the record unless told otherwise. */
  units?: DisplayUnits
}

/** The riser diagram of a water system, as shapes with roles; give it to `sceneToSvg` or render it yourself. */
export function drawSystem(system: WaterSystem, options: SceneOptions = {}): Scene {
  const { units = METRIC_UNITS } = options
  const layout = options.layout ?? layoutSystem(system, options)
  const marked = new Set(options.layer?.marks.map((mark) => mark.component))
  const shapes: Shape[] = [
    ...frame(layout),
    ...washShapes(layout, options.layer?.washes ?? []),
    ...pipes(layout),
    ...joints(layout),
    ...busJoints(layout),
    ...[...layout.spots.values()].flatMap((spot) => drawEquipment(layout, { spot, units })),
    ...layout.groups.map(drawGroup),
    ...[...layout.spots.values()].flatMap((spot) => drawOutlet(spot, marked.has(spot.component.id))),
    ...roomNumbers(layout),
    ...(options.layer === undefined ? [] : layerShapes(layout, options.layer)),
  ]
  const legend = options.legend === false ? undefined : legendShapes(layout, options.layer)
  const outlets = system.components.filter(isOutlet).length
  return {
    width: Math.ceil(Math.max(layout.width, legend?.width ?? 0)),
    height: Math.ceil(layout.height + (legend?.height ?? 0)),
    title: `${system.name}: riser diagram`,
    description: describe(layout, { outlets, layer: options.layer }),
    shapes: [...shapes, ...(legend?.shapes ?? [])],
  }
}

function describe(layout: Layout, given: { outlets: number; layer: Layer | undefined }): string {
  const floors = layout.floors.length
  const risers = layout.columns.length
  const base = `${counted(given.outlets, 'outlet')} on ${counted(floors, 'floor')} and ${counted(risers, 'riser')}.`
  return given.layer === undefined
    ? base
    : `${base} Layer: ${given.layer.name}, ${counted(given.layer.marks.length, 'mark')}.`
}

/** Floor lines with names at the left, risers named at the top. */
function frame(layout: Layout): Shape[] {
  const right = (layout.columns.at(-1)?.right ?? layout.width) + SIZES.margin / 2
  const floors = layout.floors.flatMap((floor): Shape[] => [
    { type: 'line', x1: 60, y1: tenth(floor.line), x2: tenth(right), y2: tenth(floor.line), roles: ['floor-line'] },
    { type: 'text', x: 12, y: tenth(floor.line - 7), text: short(floor.label, 14), roles: ['floor-name'] },
  ])
  const risers = layout.columns.map((column) => riserName(layout, column))
  const plants = layout.plants.map((plant): Shape => {
    const y = tenth((plant.buses.values().next().value ?? plant.top) + 10)
    return { type: 'text', x: 12, y, text: short(plant.label, 14), roles: ['floor-name'] }
  })
  return [...floors, ...risers, ...plants]
}

/** Risers are named where they end: above the top floor, below the lowest, or beside it where plant is at both ends. */
function riserName({ plants, floors }: Layout, column: Column): Shape {
  const sides = new Set(plants.map((plant) => plant.side))
  const lanes = (Math.max(1, column.lanes.size) - 1) * SIZES.lane
  const room = column.right - column.left + SIZES.columnGap
  const text = short(column.label, Math.max(2, Math.floor(room / 8)))
  const top = floors[0]?.top ?? SIZES.headRow
  if (sides.has('roof') && sides.has('bottom'))
    return { type: 'text', x: tenth(column.left + lanes + 8), y: tenth(top + 6), text, roles: ['riser-name'] }
  const y = sides.has('roof') ? (floors.at(-1)?.line ?? 0) + 20 : top - 24
  const anchor = text.length > 3 ? 'start' : 'middle'
  return { type: 'text', x: tenth(column.left + lanes / 2), y: tenth(y), text, anchor, roles: ['riser-name'] }
}

const short = (text: string, most: number): string => (text.length > most ? `${text.slice(0, most - 1)}…` : text)

const DRAWN_FIRST: readonly Circuit[] = ['cold', 'hot-return', 'tempered', 'hot']

/** What is seen of the pipes, each stretch once, and over it one line a pipe to point at. */
function pipes({ routes, sorted, spots }: Layout): Shape[] {
  const weightOf = (route: Route): 'branch' | 'main' => {
    const pipe = sorted.graph.pipes.get(route.pipes[0] ?? '')
    return [pipe?.from, pipe?.to].some((id) => AT_OUTLETS.has(spots.get(id ?? '')?.role ?? '')) ? 'branch' : 'main'
  }
  const seen = DRAWN_FIRST.flatMap((circuit) =>
    (['branch', 'main'] as const).flatMap((weight): Shape[] => {
      const lines = routes.filter((route) => route.circuit === circuit && weightOf(route) === weight)
      if (lines.length === 0) return []
      return [{ type: 'path', d: mergeLines(lines.map((route) => route.points)), roles: ['pipe', circuit, weight] }]
    }),
  )
  const pointed = routes.map((route): Shape => {
    const word = route.circuit === 'hot-return' ? 'hot return' : route.circuit
    const pipe = sorted.graph.pipes.get(route.pipes[0] ?? '')
    const one = `${word} pipe ${pipe?.label ?? pipe?.id ?? ''}, ${pipe?.lengthM ?? '?'} m`
    const label = route.pipes.length === 1 ? one : `${route.pipes.length} ${word} pipes`
    const roles = ['pipe-target', route.circuit]
    return { type: 'path', d: pathThrough(route.points), roles, pipes: route.pipes, label }
  })
  return [...seen, ...pointed]
}

const AT_OUTLETS: ReadonlySet<string> = new Set(['outlet', 'valve', 'hidden'])

/** A dot where three or more pipes of a circuit meet: lines that merely cross have none. */
function joints({ spots, sorted }: Layout): Shape[] {
  return [...spots.values()].flatMap((spot): Shape[] => {
    const joint = spot.role === 'riser-junction' || spot.role === 'bus-junction' || spot.role === 'tee'
    const met = sorted.graph.pipesAt(spot.component.id)
    if (!joint || met.length < 3) return []
    const [pipe] = met
    const label = componentName(spot.component)
    const roles = ['joint', pipe?.circuit ?? 'cold']
    return [{ type: 'circle', cx: tenth(spot.x), cy: tenth(spot.y), r: 2, roles, component: spot.component.id, label }]
  })
}

/** A dot where a pipe leaves a shared line of the plant in the middle. */
function busJoints({ plants, routes }: Layout): Shape[] {
  return plants.flatMap((plant) =>
    DRAWN_FIRST.flatMap((circuit) =>
      [plant.buses.get(circuit), circuit === 'hot-return' ? plant.backY : undefined].flatMap((y) =>
        y === undefined
          ? []
          : dotsOnLine(
              routes.filter((route) => route.circuit === circuit),
              { y, circuit },
            ),
      ),
    ),
  )
}

function dotsOnLine(routes: readonly Route[], { y, circuit }: { y: number; circuit: Circuit }): Shape[] {
  const on = routes.flatMap((route) => route.points.filter((point) => point.y === y).map((point) => point.x))
  const turns = routes.flatMap(({ points }) =>
    points.filter(
      (point, index) =>
        point.y === y && [points[index - 1], points[index + 1]].some((next) => next !== undefined && next.y !== y),
    ),
  )
  const [left, right] = [on.reduce((a, b) => Math.min(a, b), Infinity), on.reduce((a, b) => Math.max(a, b), -Infinity)]
  const inside = [...new Set(turns.map((point) => point.x))].filter((x) => x > left && x < right)
  return inside.map((x) => ({ type: 'circle', cx: tenth(x), cy: tenth(y), r: 2, roles: ['joint', circuit] }))
}

function drawOutlet(spot: Spot, marked: boolean): Shape[] {
  if (spot.role !== 'outlet' && spot.role !== 'valve') return []
  const { component } = spot
  const unused = component.use?.pattern === 'unused'
  const where = component.floor === undefined ? '' : `, floor ${component.floor}`
  const riser = component.riser === undefined ? '' : `, riser ${component.riser}`
  const shapes = marked && spot.role === 'outlet' ? [] : outletGlyph(spot)
  const target: Shape = { type: 'circle', cx: tenth(spot.x), cy: tenth(spot.y), r: 12, roles: ['target'] }
  return [
    {
      type: 'group',
      roles: ['outlet', component.kind, ...(unused ? ['unused'] : [])],
      component: component.id,
      label: `${componentName(component)}${where}${riser}${unused ? ', unused' : ''}`,
      shapes: spot.role === 'valve' ? shapes : [...shapes, target],
    },
  ]
}

/** Outlets gathered in one box, with their number. */
function drawGroup(group: Group): Shape {
  const { left: x, top: y, width, height } = group
  const counts = new Map<string, number>()
  for (const one of group.outlets) counts.set(kindWord(one.kind), (counts.get(kindWord(one.kind)) ?? 0) + 1)
  const kinds = [...counts].map(([word, count]) => `${count} ${word}`).join(', ')
  return {
    type: 'group',
    roles: ['counted'],
    place: { floor: group.floor, riser: group.riser },
    label: `Riser ${group.riser}, floor ${group.floor}: ${group.outlets.length} outlets (${kinds})`,
    shapes: [
      { type: 'rect', x: tenth(x), y: tenth(y), width, height, rx: 4, roles: ['counted-box'] },
      {
        type: 'text',
        x: tenth(x + 10),
        y: tenth(y + height / 2 + 4),
        text: `× ${group.outlets.length}`,
        roles: ['counted-text'],
      },
    ],
  }
}

const ROOM_PX = 10

/** Each room's number once, under the middle of its outlets, where it fits. */
function roomNumbers({ spots, measures, floors }: Layout): Shape[] {
  const lines = new Map(floors.map((floor) => [floor.floor, floor.line]))
  const rooms = new Map<string, { left: number; right: number; y: number; text: string }>()
  for (const spot of spots.values()) {
    const room = spot.component.room
    if (spot.role !== 'outlet' || room === undefined || spot.cell === undefined) continue
    if (measures.rows.get(spot.cell.floor)?.rooms !== true) continue
    const key = `${spot.cell.floor}|${spot.cell.riser}|${room}`
    const y = (lines.get(spot.cell.floor) ?? spot.y) - 6
    const known = rooms.get(key) ?? { left: spot.x, right: spot.x, y, text: room }
    rooms.set(key, { ...known, left: Math.min(known.left, spot.x), right: Math.max(known.right, spot.x) })
  }
  return [...rooms.values()].flatMap(({ left, right, y, text }): Shape[] => {
    const most = Math.floor((right - left + measures.slot - 6) / (ROOM_PX * 0.6))
    if (most < Math.min(3, text.length)) return []
    const shown = short(text, most)
    const width = textWidth(shown, ROOM_PX)
    const bracket: Shape[] =
      right > left && right - left > width
        ? [
            {
              type: 'line',
              x1: tenth(left),
              y1: tenth(y - 10),
              x2: tenth(right),
              y2: tenth(y - 10),
              roles: ['room-line'],
            },
          ]
        : []
    const name: Shape = {
      type: 'text',
      x: tenth((left + right) / 2),
      y,
      text: shown,
      anchor: 'middle',
      roles: ['room'],
    }
    return [...bracket, name]
  })
}
