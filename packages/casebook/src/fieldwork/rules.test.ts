import { beforeEach, describe, expect, test } from 'vitest'
import type { BodyOf } from '../entry/kinds.ts'
import { makeLabel } from '../label/label.ts'
import type { ReadingValue } from './kinds.ts'
import { collectedLabel, visitAt } from './stops.ts'
import { FINE_KIT, fieldDesk, HEATER, LABELS, POOL_KIT, SHOWER, STOPS, THERMOMETER } from './visit.fixture.ts'

const [swab = '', bulk = '', drain = '', , fifth = ''] = LABELS
let desk = fieldDesk()

const collected = (label: string, over: Partial<BodyOf<'sample.collected'>> = {}): BodyOf<'sample.collected'> => ({
  ...SHOWER,
  label,
  sampleKind: label === swab ? 'first-flush-swab' : 'bulk-hot',
  filter: 'none',
  ...over,
})
const drained = (): BodyOf<'sample.collected'> => collected(drain, { ...HEATER, sampleKind: 'heater-drain' })
const mgPerL = (value: number): ReadingValue => ({ kind: 'value', value, unit: 'mg/L' })
const celsius = (value: number): ReadingValue => ({ kind: 'value', value, unit: 'Cel' })
const residual = (value: number, over: Partial<BodyOf<'reading.taken'>> = {}): BodyOf<'reading.taken'> => ({
  ...HEATER,
  quantity: 'total-chlorine',
  reading: mgPerL(value),
  instrument: 'K1',
  ...over,
})
const hot = (over: Partial<BodyOf<'reading.taken'>> = {}): BodyOf<'reading.taken'> => ({
  ...SHOWER,
  quantity: 'hot-temperature',
  reading: celsius(44.6),
  instrument: 'T1',
  ...over,
})
const outOfOrder = { ...SHOWER, reason: 'out of order' } as const

beforeEach(() => {
  desk = fieldDesk()
  for (const instrument of [THERMOMETER, FINE_KIT, POOL_KIT]) desk.write('instrument.registered', instrument)
})

describe('stops and labels', () => {
  test('[FLD1] work happens at a stop of the adopted plan or one added on the spot', () => {
    expect(desk.paths('stop.started', { round: 'R2', stop: 'S1' })).toEqual(['body.round'])
    expect(desk.paths('stop.started', { round: 'R1', stop: 'S9' })).toEqual(['body.stop'])
    const added = { ...STOPS[1], id: 'S9', samples: [] } as BodyOf<'stop.added'>['stop']
    desk.write('stop.added', { round: 'R1', stop: added, reason: 'a second heater behind the door' })
    expect(desk.paths('stop.started', { round: 'R1', stop: 'S9' })).toEqual([])
  })

  test('[FLD2] a label is one planned for this stop and kind; at an added stop a free one with right check digits', () => {
    expect(desk.paths('sample.collected', collected(drain))).toEqual(['body.label'])
    expect(desk.paths('sample.collected', collected(swab, { sampleKind: 'bulk-hot' }))).toEqual(['body.sampleKind'])
    const stop = { ...STOPS[1], id: 'S9', samples: [{ sampleKind: 'bulk-hot', procedure: 'tap' }] }
    desk.write('stop.added', { round: 'R1', stop: stop as BodyOf<'stop.added'>['stop'], reason: 'seen' })
    const there = { round: 'R1', stop: 'S9', sampleKind: 'bulk-hot' } as const
    expect(desk.paths('sample.collected', collected('MRH-0005-00', there))).toEqual(['body.label'])
    expect(desk.paths('sample.collected', collected(drain, there))).toEqual(['body.label'])
    expect(desk.paths('sample.collected', collected(makeLabel({ prefix: 'ABC', number: 5 }).id, there))).toEqual([
      'body.label',
    ])
    expect(desk.paths('sample.collected', collected(fifth, there))).toEqual([])
  })

  test('[FLD3] a label is collected once', () => {
    desk.write('sample.collected', drained())
    expect(desk.paths('sample.collected', drained())).toEqual(['body.label'])
  })

  test('[FLD11] an added stop has an id of its own, a place that exists and free labels', () => {
    const stop = {
      ...STOPS[1],
      samples: [{ sampleKind: 'heater-drain', procedure: 'storage-heater-drain', label: drain }],
      component: 'nowhere',
    }
    expect(
      desk.paths('stop.added', { round: 'R1', stop: stop as BodyOf<'stop.added'>['stop'], reason: 'seen' }),
    ).toEqual(['body.stop.id', 'body.stop.component', 'body.stop.samples.0.label'])
  })
})

describe('order at a stop', () => {
  test.each([
    ['a bulk sample', () => desk.write('sample.collected', collected(bulk))],
    ['a reading', () => desk.write('reading.taken', { ...hot(), quantity: 'cold-temperature', reading: celsius(17) })],
    ['a running step', () => desk.write('step.done', { ...SHOWER, procedure: 'shower', step: 'run' })],
  ])('[FLD4] after %s the first flush needs its departure recorded first', (_, ran) => {
    ran()
    expect(desk.paths('sample.collected', collected(swab))).toEqual(['body.sampleKind'])
    desk.write('deviation.recorded', outOfOrder)
    expect(desk.paths('sample.collected', collected(swab))).toEqual([])
  })

  test('[FLD4] steps that let no water run, and the work at another stop, leave the first flush free', () => {
    desk.write('step.done', { ...SHOWER, procedure: 'shower', step: 'open-head' })
    desk.write('sample.collected', drained())
    expect(desk.paths('sample.collected', collected(swab))).toEqual([])
  })

  test('[FLD5] the hot reading waits for every sample of the stop, unless the departure is recorded or the sample is given up', () => {
    desk.write('sample.collected', collected(swab))
    expect(desk.paths('reading.taken', hot())).toEqual(['body.quantity'])
    desk.write('deviation.recorded', { ...SHOWER, reason: 'no flow', label: bulk, leftOut: true })
    expect(desk.paths('reading.taken', hot())).toEqual([])
    expect(desk.paths('sample.collected', collected(bulk))).toEqual(['body.sampleKind'])
    desk.write('deviation.recorded', outOfOrder)
    expect(desk.paths('sample.collected', collected(bulk))).toEqual([])
  })
})

describe('readings', () => {
  test.each([
    ['chloramine', 'total-chlorine', 'free-chlorine'],
    ['free-chlorine', 'free-chlorine', 'total-chlorine'],
    ['unknown', 'total-chlorine', 'free-chlorine'],
    ['none', 'total-chlorine', 'free-chlorine'],
    ['chlorine-dioxide', 'total-chlorine', 'free-chlorine'],
  ] as const)(
    '[FLD6] %s: %s is the test; the other is refused alone and taken beside it',
    (disinfectant, right, wrong) => {
      desk = fieldDesk(disinfectant)
      desk.write('instrument.registered', FINE_KIT)
      const { issues } = desk.propose('reading.taken', residual(1.2, { quantity: wrong }))
      expect(issues.map(({ path }) => path)).toEqual(['body.quantity'])
      expect(issues[0]?.expected).toMatch(`${right}, because the `)
      expect(desk.paths('reading.taken', residual(1.2, { quantity: right }))).toEqual([])
      expect(desk.paths('reading.taken', residual(1.2, { quantity: wrong }))).toEqual([])
    },
  )

  test('[FLD7] a residual names its kit; one below 2 mg/L needs a kit fine enough to tell it, and the reason is given', () => {
    const { instrument: _, ...bare } = residual(1.5)
    expect(desk.paths('reading.taken', bare)).toEqual(['body.instrument'])
    const { issues } = desk.propose('reading.taken', residual(1.5, { instrument: 'K2' }))
    expect(issues.map(({ path }) => path)).toEqual(['body.instrument'])
    expect(issues[0]?.received).toBe("K2, a pool-type kit: steps of 0.5 mg/L can't tell a residual below 2 mg/L")
    const below: ReadingValue = { kind: 'below', limit: 0.5, unit: 'mg/L' }
    expect(desk.paths('reading.taken', residual(0, { instrument: 'K2', reading: below }))).toEqual(['body.instrument'])
    expect(desk.paths('reading.taken', residual(2, { instrument: 'K2' }))).toEqual([])
    expect(desk.paths('reading.taken', residual(1.5))).toEqual([])
  })

  test('[FLD8] a reading is in its unit, from a registered instrument that measures it, inside its range', () => {
    const cold = { quantity: 'cold-temperature', reading: celsius(17) } as const
    expect(desk.paths('reading.taken', { ...HEATER, ...cold, instrument: 'T9' })).toEqual(['body.instrument'])
    expect(desk.paths('reading.taken', { ...HEATER, ...cold, instrument: 'K1' })).toEqual(['body.instrument'])
    expect(desk.paths('reading.taken', { ...HEATER, ...cold, reading: mgPerL(17) })).toEqual(['body.reading.unit'])
    expect(desk.paths('reading.taken', residual(3.6))).toEqual(['body.reading.value'])
    const above: ReadingValue = { kind: 'above', limit: 3.5, unit: 'mg/L' }
    expect(desk.paths('reading.taken', residual(0, { reading: above }))).toEqual([])
  })

  test('[FLD9] an instrument past its calibration needs that recorded first; the day counts where the reading is made', () => {
    desk.write('instrument.registered', { ...THERMOMETER, code: 'T2', calibrationDue: '2026-03-01' })
    desk.write('instrument.registered', { ...THERMOMETER, code: 'T3', calibrationDue: '2026-03-02' })
    const cold = { ...HEATER, quantity: 'cold-temperature', reading: celsius(17) } as const
    expect(desk.paths('reading.taken', { ...cold, instrument: 'T3' })).toEqual([])
    expect(desk.paths('reading.taken', { ...cold, instrument: 'T2' })).toEqual(['body.instrument'])
    desk.write('deviation.recorded', { ...HEATER, reason: 'calibration out of date' })
    expect(desk.paths('reading.taken', { ...cold, instrument: 'T2' })).toEqual([])
  })

  test('[FLD12] an instrument has a range, measures what its unit is for, and its calibration ends after it began', () => {
    const wrong = { ...THERMOMETER, rangeMax: -20, measures: ['ph' as const], calibratedOn: '2026-11-01' }
    expect(desk.paths('instrument.registered', wrong)).toEqual([
      'body.rangeMax',
      'body.measures',
      'body.calibrationDue',
    ])
  })

  test('[FLD13] a curve is of a temperature and runs forward in time', () => {
    const points = [20, 10].map((seconds) => ({ seconds, temperatureC: 30 }))
    const cold = { ...HEATER, quantity: 'cold-temperature', reading: celsius(17), curve: { points } } as const
    expect(desk.paths('reading.taken', cold)).toEqual(['body.curve.points.1.seconds'])
    expect(desk.paths('reading.taken', residual(1.5, { curve: { points: points.slice(1) } }))).toEqual(['body.curve'])
  })
})

test('[FLD10] a stop is "sampled" only with everything planned; less needs a true outcome and a reason', () => {
  expect(desk.paths('stop.finished', { ...HEATER, outcome: 'sampled' })).toEqual(['body.outcome'])
  expect(desk.paths('stop.finished', { ...HEATER, outcome: 'not possible' })).toEqual(['body.reason'])
  desk.write('sample.collected', drained())
  expect(desk.paths('stop.finished', { ...HEATER, outcome: 'not possible', reason: 'locked' })).toEqual([
    'body.outcome',
  ])
  expect(desk.paths('stop.finished', { ...HEATER, outcome: 'sampled' })).toEqual([])
  expect(desk.paths('stop.finished', { ...SHOWER, outcome: 'partly', reason: 'no flow' })).toEqual([])
})

test('[FLD14] an amendment is not judged by an order that lies behind it', () => {
  const first = desk.write('sample.collected', collected(swab))
  desk.write('sample.collected', collected(bulk))
  desk.write('reading.taken', hot())
  const { issues } = desk.propose('sample.collected', collected(swab, { volumeMl: 4 }), {
    entry: first.id,
    reason: 'the volume was left out',
  })
  expect(issues).toEqual([])
})

test('[FLD8] a value outside the range is told the range as people write it', () => {
  const meter = {
    ...THERMOMETER,
    code: 'P1',
    kind: 'pH meter',
    measures: ['ph'],
    rangeMin: 0,
    rangeMax: 14,
    unit: '[pH]',
  }
  desk.write('instrument.registered', meter as BodyOf<'instrument.registered'>)
  const reading = { kind: 'value', value: 15, unit: '[pH]' } as const
  const { issues } = desk.propose('reading.taken', { ...HEATER, quantity: 'ph', reading, instrument: 'P1' })
  expect(issues.map(({ expected }) => expected)).toEqual(['0 to 14 pH, the range of P1'])
  const warm = desk.propose('reading.taken', { ...hot(), reading: celsius(999) })
  expect(warm.issues.map(({ expected }) => expected)).toContainEqual(
    expect.stringMatching(/^.20 to 110 °C, the range of T1$/),
  )
})

test('[FLD2] the sample collected for a planned one without a label is known by the label it was given', () => {
  const sample = { sampleKind: 'bulk-hot', procedure: 'tap', circuit: 'hot' } as const
  const stop = { ...STOPS[1], id: 'S9', samples: [sample] } as BodyOf<'stop.added'>['stop']
  desk.write('stop.added', { round: 'R1', stop, reason: 'seen' })
  const at = { round: 'R1', stop: 'S9' } as const
  expect(collectedLabel(visitAt(desk.state, at), sample)).toBeUndefined()
  desk.write('sample.collected', { ...at, label: fifth, sampleKind: 'bulk-hot', circuit: 'hot', filter: 'none' })
  expect(collectedLabel(visitAt(desk.state, at), sample)).toBe(fifth)
})
