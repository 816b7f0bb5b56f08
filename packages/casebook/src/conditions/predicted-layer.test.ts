import { QUANTITIES } from '@rillmark/science/network/network.ts'
import { expect, test } from 'vitest'
import { buildSystem } from '../building/build-system.ts'
import { marramHouse } from '../building/marram-house.fixture.ts'
import { drawSystem } from '../drawing/draw-scene.ts'
import { US_UNITS } from '../units/display-units.ts'
import type { ConditionsSeries } from './conditions.ts'
import { conditionsByHand } from './conditions.fixture.ts'
import { predictedLayer, type PredictedView } from './predicted-layer.ts'
import { SCALE_TONES, SHOWN_QUANTITIES, stepWords, toneOf } from './shown-quantity.ts'

const system = buildSystem(marramHouse)
const conditions = conditionsByHand(system, {
  'shower-c605/hot': { temperatureC: [41, 23, 52] },
  'basin-tap-c605/hot': { ageHours: 300, temperatureC: 22, neverMoves: true },
})
const view: PredictedView = { system, conditions, quantity: 'temperature', side: 'hot' }
const markAt = (id: string, given: Partial<PredictedView> = {}) =>
  predictedLayer({ ...view, ...given }).marks.find(({ component }) => component === id)
const rounded = (value: number): number => Math.round(value)

test('[WAT3] an outlet carries the figure of the side looked at, in the units of the reader', () => {
  expect(markAt('shower-c605')).toMatchObject({ form: 'disc', text: '41', tone: toneOf(41, 'temperature') })
  expect(markAt('shower-c605')?.label).toBe('predicted temperature, hot side: 41.0 °C')
  expect(markAt('shower-c605', { side: 'cold' })?.text).toBe('16')
  // 41 °C = 105.8 °F: the definition of the scales
  expect(markAt('shower-c605', { units: US_UNITS })).toMatchObject({ text: '106', tone: toneOf(41, 'temperature') })
})

test('[WAT3] still water is told apart by form, not by colour, and its age is at least', () => {
  expect(markAt('basin-tap-c605', { quantity: 'age' })).toMatchObject({ form: 'square', text: '≥ 300' })
  expect(markAt('basin-tap-c605', { quantity: 'age' })?.label).toContain('at least 300 h, no water moves here')
  const { legend = [] } = predictedLayer(view)
  expect(legend.map(({ text }) => text)).toContain('no water moves here')
})

test('[WAT3] an outlet of which nothing can be said is a ring without a figure', () => {
  const { 'shower-c605': _none, ...components } = conditions.components
  const mark = markAt('shower-c605', { conditions: { ...conditions, components } })
  expect(mark).toMatchObject({ form: 'ring', tone: 'muted' })
  expect(mark?.text).toBeUndefined()
})

test('[WAT4] the pipes of the side looked at are washed, the others are not', () => {
  const washed = (side: 'hot' | 'cold') => new Set(predictedLayer({ ...view, side }).washes?.map(({ pipe }) => pipe))
  for (const { id, circuit } of system.pipes) {
    expect(washed('cold').has(id), id).toBe(circuit === 'cold')
    expect(washed('hot').has(id), id).toBe(circuit !== 'cold')
  }
  const shapes = drawSystem(system, { layer: predictedLayer(view) }).shapes.filter(({ roles }) => roles[0] === 'wash')
  expect(shapes.length).toBeGreaterThan(0)
  expect(shapes.every(({ type, roles }) => type === 'path' && SCALE_TONES.some((tone) => tone === roles[1]))).toBe(true)
})

/** Curves that tell where they were read: row · 100 + slot, so that a figure names its place. */
function tellingSeries(slots: number): ConditionsSeries {
  const rows = (count: number): Float32Array =>
    Float32Array.from({ length: count * slots }, (_, at) => Math.floor(at / slots) * 100 + (at % slots))
  const of = (count: number) =>
    Object.fromEntries([...QUANTITIES, 'flowLPerMin'].map((name) => [name, rows(count)])) as ConditionsSeries['pipes']
  const pipeIds = system.pipes.map(({ id }) => id)
  const componentIds = system.components.map(({ id }) => id)
  return { slots, pipeIds, componentIds, pipes: of(pipeIds.length), components: of(componentIds.length) }
}

test('[WAT3] the whole day is told by its mean, its lowest or its highest', () => {
  expect(markAt('shower-c605', { by: 'highest' })?.text).toBe('52')
  expect(markAt('shower-c605', { by: 'lowest' })?.text).toBe('23')
  expect(predictedLayer({ ...view, by: 'highest' }).name).toBe('Predicted temperature, hot side, highest of the day')
})

test('[WAT3] where the residual of the supply is not described, no residual is shown', () => {
  const unknown = { ...conditions, residualUnknown: true as const }
  const layer = predictedLayer({ ...view, conditions: unknown, quantity: 'residual' })
  expect(layer.washes).toEqual([])
  expect(new Set(layer.marks.map(({ form, text }) => `${form} ${text ?? ''}`))).toEqual(new Set(['ring ']))
})

test('[WAT4] at an hour the figure of an outlet is that of the pipe it arrives through, the plant its own', () => {
  const series = tellingSeries(96)
  const hotPipe = system.pipes.findIndex(({ to, circuit }) => to === 'shower-c605' && circuit === 'hot')
  const heater = system.components.findIndex(({ id }) => id === 'heater-1')
  expect(hotPipe).toBeGreaterThan(-1)
  expect(markAt('shower-c605', { series, slot: 29, quantity: 'age' })?.text).toBe(String(rounded(hotPipe * 100 + 29)))
  expect(markAt('heater-1', { series, slot: 29, quantity: 'age' })?.text).toBe(String(rounded(heater * 100 + 29)))
  expect(predictedLayer({ ...view, series, slot: 29 }).name).toBe('Predicted temperature, hot side, 07:15')
  expect(predictedLayer(view).name).toBe('Predicted temperature, hot side, mean of the day')
})

test('[WAT3] the scale has ten even steps for every quantity, named for the reader; collapsed outlets press as the side asks', () => {
  for (const quantity of SHOWN_QUANTITIES) {
    expect(stepWords(quantity)).toHaveLength(10)
    expect(new Set(stepWords(quantity)).size).toBe(10)
    expect(toneOf(-1, quantity)).toBe('scale-0')
    expect(toneOf(1e6, quantity)).toBe('scale-9')
  }
  expect(stepWords('temperature', US_UNITS).slice(0, 2)).toEqual(['below 68 °F', '68 to 77'])
  expect(predictedLayer(view).pressing?.[0]).toBe('scale-0')
  expect(predictedLayer({ ...view, side: 'cold' }).pressing?.[0]).toBe('scale-9')
})
