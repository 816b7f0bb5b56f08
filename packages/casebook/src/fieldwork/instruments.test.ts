import { expect, test } from 'vitest'
import { betweenSteps, instrumentsFor } from './instruments.ts'
import type { ReadingQuantity } from './kinds.ts'
import { fieldDesk, THERMOMETER } from './visit.fixture.ts'

const PH = { code: 'P1', kind: 'pH meter', measures: ['ph'], unit: '[pH]', rangeMin: 0, rangeMax: 14 } as const

function against(instrument: Parameters<ReturnType<typeof fieldDesk>['write']>[1], quantity: ReadingQuantity) {
  const desk = fieldDesk()
  desk.write('instrument.registered', instrument as typeof THERMOMETER)
  return instrumentsFor(desk.state, { quantity, on: '2026-03-04' })[0]?.against
}

// The limits are those of reference/fieldwork; the words are ours.
test.each([
  { name: 'a field thermometer', instrument: THERMOMETER, quantity: 'hot-temperature' as const, want: undefined },
  {
    name: 'a bath thermometer for hot water',
    instrument: { ...THERMOMETER, rangeMin: 0, rangeMax: 50 },
    quantity: 'hot-temperature' as const,
    want: 'reads up to 50 °C only, hot water is held against 50 °C',
  },
  {
    name: 'an oven probe for cold water',
    instrument: { ...THERMOMETER, rangeMin: 20, rangeMax: 250 },
    quantity: 'cold-temperature' as const,
    want: 'reads from 20 °C only, cold water is held against 20 °C',
  },
  {
    name: 'a thermometer in whole degrees',
    instrument: { ...THERMOMETER, resolution: 1 },
    quantity: 'hot-temperature' as const,
    want: "steps of 1 °C can't show that the water is steady",
  },
  {
    name: 'a pH meter',
    instrument: { ...PH, measures: ['ph' as const], resolution: 0.01 },
    quantity: 'ph' as const,
    want: undefined,
  },
  {
    name: 'a strip in whole units',
    instrument: { ...PH, measures: ['ph' as const], kind: 'pH strip' as const, resolution: 1 },
    quantity: 'ph' as const,
    want: 'steps of 1 are too coarse for pH',
  },
  {
    name: 'a strip for acids',
    instrument: { ...PH, measures: ['ph' as const], kind: 'pH strip' as const, rangeMax: 7, resolution: 0.5 },
    quantity: 'ph' as const,
    want: 'reads 0 to 7, drinking water is looked for from 6.5 to 8.5',
  },
])('[FLD25] $name', ({ instrument, quantity, want }) => {
  expect(against(instrument, quantity)).toBe(want)
})

test.each([
  [0.1, 7.6, undefined],
  [0.01, 7.63, undefined],
  [0.05, 0.35, undefined],
  [0.1, 7.63, 'T1 shows steps of 0.1'],
  [0.2, 0.5, 'T1 shows steps of 0.2'],
])('[FLD25] steps of %d and a reading of %d', (resolution, value, want) => {
  expect(betweenSteps({ ...THERMOMETER, resolution }, { kind: 'value', value, unit: '[pH]' })).toBe(want)
  expect(betweenSteps({ ...THERMOMETER, resolution }, { kind: 'below', limit: value, unit: '[pH]' })).toBeUndefined()
})
