import type { Layout, Point } from './places.ts'
import { SIZES } from './measures.ts'
import type { Shape } from './scene.ts'
import { textWidth } from './scene.ts'
import { markShape } from './mark-shape.ts'

export type MarkForm = 'disc' | 'ring' | 'dashed-ring' | 'cross' | 'square' | 'diamond' | 'triangle' | 'dot'

/** What a mark means for the eye, never a colour: the palette decides. `scale-0` to `scale-9` run from low to high. */
export type Tone =
  | 'plain'
  | 'muted'
  | 'accent'
  | 'good'
  | 'warn'
  | 'bad'
  | `scale-${0 | 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8 | 9}`

/** One thing known about one place. */
export interface Mark {
  component?: string
  pipe?: string
  form: MarkForm
  size?: 'small' | 'medium' | 'large'
  tone: Tone
  /** A few characters beside the mark, such as a count or a temperature. */
  text?: string
  /** What a screen reader says and a pointer shows. */
  label: string
}

/** One kind of knowledge laid over the drawing. */
export interface Layer {
  name: string
  marks: readonly Mark[]
  /** What each form and tone means; shown under the drawing. */
  legend?: readonly { form: MarkForm; tone: Tone; text: string }[]
  /** Tones from the most to the least pressing: what a collapsed group shows of its outlets. */
  pressing?: readonly Tone[]
  /** Tones laid along pipes, under their lines. */
  washes?: readonly Wash[]
}

/** What is known of the water in one pipe. */
export interface Wash {
  pipe: string
  tone: Tone
}

const RADIUS = { small: 4, medium: 6, large: 8 }
const TEXT_PX = 11

/** The shapes of a layer's marks. Marks on places the drawing has not are left out. */
export function layerShapes(layout: Layout, layer: Layer): Shape[] {
  const byGroup = new Map<string, Mark[]>()
  const open: { mark: Mark; at: Point; where: Where }[] = []
  const groupOf = new Map(layout.groups.flatMap((group, index) => group.outlets.map((one) => [one.id, String(index)])))
  const anchors = pipeAnchors(layout)
  for (const mark of layer.marks) {
    const group = groupOf.get(mark.component ?? '')
    if (group !== undefined) byGroup.set(group, [...(byGroup.get(group) ?? []), mark])
    else {
      const found = anchorOf(layout, { mark, anchors })
      if (found !== undefined) open.push({ mark, ...found })
    }
  }
  open.sort((a, b) => a.at.y - b.at.y || a.at.x - b.at.x)
  const texts = new TextRoom([
    ...open.map(({ at, mark }) => around(at, RADIUS[mark.size ?? 'medium'])),
    ...fixedBoxes(layout),
  ])
  const single = open.map(({ mark, at, where }) => markGroup(mark, { at, text: texts.find(mark, { at, where }) }))
  const counted = [...byGroup].flatMap(([index, marks]) => groupMark(layout, { index: Number(index), marks, layer }))
  return [...single, ...counted]
}

type Where = 'outlet' | 'plant' | 'roof' | 'pipe'

function anchorOf(
  layout: Layout,
  { mark, anchors }: { mark: Mark; anchors: ReadonlyMap<string, Point> },
): { at: Point; where: Where } | undefined {
  if (mark.component !== undefined) {
    const spot = layout.spots.get(mark.component)
    if (spot === undefined || spot.role === 'hidden') return undefined
    return {
      at: { x: spot.x, y: spot.y },
      where: spot.role !== 'equipment' ? 'outlet' : spot.plant === 'roof' ? 'roof' : 'plant',
    }
  }
  const at = anchors.get(mark.pipe ?? '')
  return at === undefined ? undefined : { at, where: 'pipe' }
}

/** A return is marked at the top of its lane, another pipe in the middle of its longest stretch. */
function pipeAnchors(layout: Layout): Map<string, Point> {
  const anchors = new Map<string, Point>()
  for (const route of layout.routes) {
    const pairs = route.points.slice(1).map((b, index) => ({ a: route.points[index] ?? b, b }))
    const length = ({ a, b }: { a: Point; b: Point }): number => Math.abs(a.x - b.x) + Math.abs(a.y - b.y)
    const longest = pairs.reduce((best, pair) => (length(pair) > length(best) ? pair : best), pairs[0] ?? NOWHERE)
    const { a, b } = longest
    const top = Math.min(a.y, b.y)
    const rises = a.x === b.x && route.circuit === 'hot-return'
    const at = rises ? { x: a.x, y: top + SIZES.lane } : { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 }
    for (const pipe of route.pipes) anchors.set(pipe, at)
  }
  return anchors
}

const NOWHERE = { a: { x: 0, y: 0 }, b: { x: 0, y: 0 } }

function markGroup(mark: Mark, { at, text }: { at: Point; text: Placed | undefined }): Shape {
  const r = RADIUS[mark.size ?? 'medium']
  const shapes: Shape[] = markShape({ form: mark.form, at, r, tone: mark.tone })
  if (mark.text !== undefined && text !== undefined)
    shapes.push({ type: 'text', ...text, text: mark.text, roles: ['mark-text', mark.tone] })
  const about = mark.component === undefined ? { pipes: [mark.pipe ?? ''] } : { component: mark.component }
  return { type: 'group', roles: ['mark'], shapes, label: mark.label, ...about }
}

interface Placed {
  x: number
  y: number
  anchor: 'start' | 'middle' | 'end'
}

/** Finds room for the text of a mark: beside it, else above; a text without room is only said, not drawn. */
class TextRoom {
  readonly #taken: Box[]

  constructor(taken: readonly Box[]) {
    this.#taken = [...taken]
  }

  find(mark: Mark, { at, where }: { at: Point; where: Where }): Placed | undefined {
    if (mark.text === undefined) return undefined
    const r = RADIUS[mark.size ?? 'medium']
    const width = textWidth(mark.text, TEXT_PX)
    const beside: Placed = { x: at.x + r + 3, y: at.y + 4, anchor: 'start' }
    const above: Placed = { x: at.x, y: at.y - r - 4, anchor: 'middle' }
    const left: Placed = { x: at.x - r - 3, y: at.y + 4, anchor: 'end' }
    const plant: Placed = { x: at.x + 6, y: at.y - SIZES.equipmentHeight / 2 - 7, anchor: 'start' }
    const roof: Placed = { ...plant, y: at.y + SIZES.equipmentHeight / 2 + 15 }
    const choices =
      where === 'plant'
        ? [plant]
        : where === 'roof'
          ? [roof]
          : where === 'pipe'
            ? [left, beside, above]
            : [beside, above]
    for (const place of choices) {
      const box = boxOf(place, width)
      if (this.#taken.some((other) => overlaps(box, other))) continue
      this.#taken.push(box)
      return place
    }
    return undefined
  }
}

const around = ({ x, y }: Point, r: number): Box => ({ left: x - r, right: x + r, top: y - r, bottom: y + r })

/** Where text already stands, or the sign of an outlet. */
function fixedBoxes({ floors, groups, spots }: Layout): Box[] {
  const names = floors.map(({ line, label }) => {
    return { left: 0, right: 14 + textWidth(label, 12), top: line - 18, bottom: line - 3 }
  })
  const boxes = groups.map(({ left, top, width, height }) => {
    return { left, right: left + width, top, bottom: top + height }
  })
  const outlets = [...spots.values()].filter((spot) => spot.role === 'outlet')
  return [...names, ...boxes, ...outlets.map((spot) => around(spot, 4))]
}

interface Box {
  left: number
  right: number
  top: number
  bottom: number
}

function boxOf({ x, y, anchor }: Placed, width: number): Box {
  const left = anchor === 'start' ? x : anchor === 'end' ? x - width : x - width / 2
  return { left, right: left + width, top: y - 9, bottom: y + 2 }
}

const overlaps = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom

/** A collapsed group shows its most pressing mark and how many of its outlets carry it. */
function groupMark(layout: Layout, given: { index: number; marks: readonly Mark[]; layer: Layer }): Shape[] {
  const group = layout.groups[given.index]
  const order = given.layer.pressing ?? ['bad', 'warn', 'accent', 'plain', 'good', 'muted']
  const rank = (mark: Mark): number => (order.includes(mark.tone) ? order.indexOf(mark.tone) : order.length)
  const [first] = given.marks.toSorted((a, b) => rank(a) - rank(b))
  if (group === undefined || first === undefined) return []
  const alike = given.marks.filter((mark) => mark.tone === first.tone && mark.form === first.form).length
  const at = { x: group.left + group.width - 36, y: group.top + group.height / 2 }
  const text = `${alike}/${given.marks.length}`
  const label = `${group.outlets.length} outlets: ${given.marks.map((mark) => mark.label).join('; ')}`
  const shapes: Shape[] = [
    ...markShape({ form: first.form, at, r: 5, tone: first.tone }),
    { type: 'text', x: at.x + 8, y: at.y + 4, anchor: 'start', text, roles: ['mark-text', first.tone] },
  ]
  return [
    { type: 'group', roles: ['mark', 'counted'], shapes, label, place: { floor: group.floor, riser: group.riser } },
  ]
}
