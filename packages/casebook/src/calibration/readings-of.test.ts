import { expect, test } from 'vitest'
import type { BodyOf } from '../entry/kinds.ts'
import { fieldDesk, HEATER, SHOWER } from '../fieldwork/visit.fixture.ts'
import { extend } from '../state/derive.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import { readingsOf } from './readings-of.ts'

const at = '2026-03-04T09:30:00.000Z'
const celsius = (value: number) => ({ kind: 'value', value, unit: 'Cel' }) as const

/** The record with readings; whether they may be taken is the business of fieldwork. */
function withReadings(bodies: readonly BodyOf<'reading.taken'>[]) {
  const maker = entryMaker('marram-house', { device: 'field-2' })
  return extend(
    fieldDesk().state,
    bodies.map((body) => maker.make('reading.taken', body)),
  )
}

test('[CLB1] a curve gives its first point, the one nearest half a minute and its cleared end, with their seconds and the clock time', () => {
  const points = [0, 10, 20, 30, 40, 50, 60, 70, 80].map((seconds) => ({
    seconds,
    temperatureC: Math.min(55, 25 + seconds),
  }))
  const state = withReadings([
    {
      ...SHOWER,
      component: 'shower-c304',
      quantity: 'hot-temperature',
      reading: celsius(55),
      curve: { points, steady: { fromSeconds: 40, toSeconds: 80, temperatureC: 55 } },
      takenAt: at,
    },
  ])
  const taken = readingsOf(state)
  expect(taken.map(({ seconds, value }) => [seconds, value])).toEqual([
    [0, 25],
    [30, 55],
    [80, 55],
  ])
  expect(new Set(taken.map(({ id }) => id)).size).toBe(3)
  for (const one of taken)
    expect(one).toMatchObject({ component: 'shower-c304', circuit: 'hot', quantity: 'temperature', clockMinute: 570 })
})

test('[CLB1] a single reading keeps what the instrument could not tell; pH is not taken; the place may come from the stop', () => {
  const none = { kind: 'below', limit: 0.1, unit: 'mg/L' } as const
  const state = withReadings([
    { ...SHOWER, quantity: 'total-chlorine', circuit: 'cold', reading: none, takenAt: at },
    { ...SHOWER, quantity: 'cold-temperature', reading: celsius(17.2), takenAt: at },
    { ...HEATER, quantity: 'hot-temperature', reading: celsius(58), takenAt: at },
    { ...SHOWER, quantity: 'ph', reading: { kind: 'value', value: 8, unit: '[pH]' }, takenAt: at },
  ])
  expect(readingsOf(state)).toMatchObject([
    { component: 'shower-c304', circuit: 'cold', quantity: 'residual', value: 0.1, beyond: 'below' },
    { component: 'shower-c304', circuit: 'cold', quantity: 'temperature', value: 17.2 },
    { component: 'heater-1', circuit: 'hot', quantity: 'temperature', value: 58 },
  ])
  expect(readingsOf(state, new Set(['R2']))).toEqual([])
})

test('[CLB1] of plant only the cleared end of a curve is taken: what its valve held is not described', () => {
  const points = [0, 10, 20, 30, 40, 50, 60].map((seconds) => ({
    seconds,
    temperatureC: Math.min(58, 24 + 2 * seconds),
  }))
  const curve = { points, steady: { fromSeconds: 20, toSeconds: 60, temperatureC: 58 } }
  const state = withReadings([{ ...HEATER, quantity: 'hot-temperature', reading: celsius(58), curve, takenAt: at }])
  expect(readingsOf(state)).toMatchObject([{ component: 'heater-1', circuit: 'hot', seconds: 60, value: 58 }])
})

test('[CLB23] the step an instrument shows adds to how far its readings may be off', () => {
  const maker = entryMaker('marram-house', { device: 'field-2' })
  const dial = {
    code: 'D9',
    kind: 'thermometer',
    measures: ['hot-temperature'],
    rangeMin: 0,
    rangeMax: 120,
    resolution: 2,
    unit: 'Cel',
  } as const
  const read = { ...HEATER, quantity: 'hot-temperature', reading: celsius(58), takenAt: at } as const
  const state = extend(fieldDesk().state, [
    maker.make('instrument.registered', { ...dial, measures: [...dial.measures] }),
    maker.make('reading.taken', read),
    maker.make('reading.taken', { ...read, instrument: 'D9' }),
  ])
  const [usual, coarse] = readingsOf(state).map(({ sd }) => sd)
  expect(usual).toBeCloseTo(0.5, 12)
  // uniform over 2 °C: variance 4/12
  expect(coarse).toBeCloseTo(Math.sqrt(0.25 + 4 / 12), 12)
})
