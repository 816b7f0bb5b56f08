import { expect, test } from 'vitest'
import { buildSystem } from '../building/build-system.ts'
import { grid, marramHouse } from '../building/marram-house.fixture.ts'
import { isOutlet } from '../building/water-system.ts'
import { drawSystem } from './draw-scene.ts'
import type { Layer } from './layers.ts'
import type { Shape } from './scene.ts'
import { textWidth } from './scene.ts'
import { sceneToSvg } from './svg.ts'

const marram = buildSystem(marramHouse)

const results: Layer = {
  name: 'Results',
  marks: [
    { component: 'shower-c605', form: 'disc', tone: 'bad', text: '38', label: '605 shower: detected' },
    { component: 'basin-tap-c605', form: 'disc', tone: 'bad', text: '12 300', label: '605 basin tap: detected' },
    { component: 'kitchen-tap-c605', form: 'ring', tone: 'plain', text: '0.5', label: '605 kitchen tap: not detected' },
    { component: 'nobody', form: 'ring', tone: 'plain', label: 'not on this drawing' },
    { component: 'heater-1', form: 'ring', tone: 'plain', text: '58.1 °C', label: 'Heater 1: 58.1 °C' },
    {
      pipe: 'hot-return-hot-c-f6-to-return-main-c',
      form: 'square',
      tone: 'bad',
      text: '43.1 °C',
      label: 'Return C: 43.1 °C',
    },
  ],
  legend: [{ form: 'disc', tone: 'bad', text: 'detected' }],
}

const flat = (shapes: readonly Shape[]): Shape[] =>
  shapes.flatMap((shape) => (shape.type === 'group' ? [shape, ...flat(shape.shapes)] : [shape]))

test('[BLD11] every outlet and every pipe can be pointed at and is named for a screen reader', () => {
  const shapes = flat(drawSystem(marram).shapes)
  const named = new Map(shapes.map((shape) => [shape.component, shape.label]))
  for (const outlet of marram.components.filter(isOutlet)) expect(named.get(outlet.id)).toContain(outlet.room)
  const pipes = new Set(shapes.flatMap((shape) => shape.pipes ?? []))
  expect(pipes.size).toBe(marram.pipes.length)
})

test('[BLD11] a layer marks places and says every mark, also where its text has no room', () => {
  const shapes = flat(drawSystem(marram, { layer: results }).shapes)
  const marks = shapes.filter((shape) => shape.roles[0] === 'mark')
  expect(marks.map((shape) => shape.label).sort()).toEqual(
    results.marks
      .filter((mark) => mark.component !== 'nobody')
      .map((mark) => mark.label)
      .sort(),
  )
})

test('[BLD11] collapsed outlets show their most pressing mark and how many carry it', () => {
  const scene = drawSystem(marram, { layer: results, detail: 'collapsed' })
  const counted = scene.shapes.find((shape) => shape.type === 'group' && shape.roles.includes('mark') && shape.place)
  expect(counted).toMatchObject({ place: { floor: 6, riser: 'C' } })
  expect(
    counted === undefined ? [] : flat([counted]).flatMap((shape) => (shape.type === 'text' ? shape.text : [])),
  ).toEqual(['2/3'])
})

const SIZES: Record<string, number> = { room: 10, 'mark-text': 11, 'equipment-figure': 11, 'riser-name': 13 }

test.each([
  ['10 outlets', buildSystem({ ...grid({ floors: 2, risers: 1, each: 5 }), recirculation: 'none' })],
  ['Marram House', marram],
  ['roof plant', buildSystem({ ...marramHouse, plant: { position: 'roof' }, mixing: 'central', coldTank: {} })],
  ['400 outlets', buildSystem(grid({ floors: 10, risers: 8, each: 5 }))],
  ['2,000 outlets', buildSystem(grid({ floors: 20, risers: 10, each: 10 }))],
])('[BLD9] %s: no text lies on another text', (_, system) => {
  const scene = drawSystem(system, { layer: results })
  const boxes = flat(scene.shapes).flatMap((shape) => {
    if (shape.type !== 'text') return []
    const size = SIZES[shape.roles[0] ?? ''] ?? 12
    const width = textWidth(shape.text, size) * 0.9
    const left = shape.anchor === 'end' ? shape.x - width : shape.anchor === 'middle' ? shape.x - width / 2 : shape.x
    return [{ text: shape.text, left, right: left + width, top: shape.y - size * 0.8, bottom: shape.y }]
  })
  const clashes = boxes.flatMap((a, index) =>
    boxes
      .slice(index + 1)
      .filter((b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom)
      .map((b) => `${a.text} on ${b.text}`),
  )
  expect(clashes).toEqual([])
  for (const box of boxes) expect(box.right).toBeLessThanOrEqual(scene.width)
})

test('[BLD12] the document is well formed whatever people wrote, and the same each time', () => {
  const nasty = '<script>alert("x")</script> & \u0000 \uD800'
  const system = { ...marram, name: nasty, components: marram.components.map((one) => ({ ...one, label: nasty })) }
  const svg = sceneToSvg(drawSystem(system))
  expect(svg).not.toContain('<script')
  expect(svg).not.toContain('\u0000')
  expect(svg.isWellFormed()).toBe(true)
  expect(svg.match(/<g[ >]/g)?.length).toBe(svg.match(/<\/g>/g)?.length)
  expect(sceneToSvg(drawSystem(system))).toBe(svg)
})

test('[BLD12] light and dark differ in the style sheet only', () => {
  const body = (theme: 'light' | 'dark'): string =>
    sceneToSvg(drawSystem(marram), { theme }).replace(/<style>.*?<\/style>/s, '')
  expect(body('dark')).toBe(body('light'))
})

test('[BLD12] the document stands alone: no variable is left, on paper nothing unseen is kept', () => {
  const svg = sceneToSvg(drawSystem(marram, { layer: results }))
  expect(svg).not.toContain('var(')
  const paper = sceneToSvg(drawSystem(marram, { layer: results }), { pointable: false })
  expect(paper).not.toMatch(/class="(pipe-)?target/)
  expect(paper.match(/<text/g)?.length).toBe(svg.match(/<text/g)?.length)
})
