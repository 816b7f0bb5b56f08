import { RECORD_UNITS, decimalsOf, isOtherUnit, otherUnitOf } from '@rillmark/casebook/units/scales.ts'
import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { draftOfTyped, readTypedQuantity, textIn, typedIn } from './typed-quantity.ts'

test.each([
  ['140 °F', 60],
  ['0,545 in', 13.843],
  ['60', 60],
  ['60 °C', 60],
  ['7.2 °F difference', 4],
  ['2.5 US gal/min', 9.46353],
  ['−40 °F', -40],
] as const)('%s stands for %d in the unit of the record', (draft, value) => {
  expect(readTypedQuantity(draft)).toMatchObject({ kind: 'number', value })
})

test('nothing typed, or no number, is said so', () => {
  expect(readTypedQuantity('').kind).toBe('empty')
  expect(readTypedQuantity('hot °F').kind).toBe('unreadable')
  expect(readTypedQuantity('5 pints').kind).toBe('unreadable')
})

test('what is typed is kept with its unit, and shown as it was typed', () => {
  const draft = draftOfTyped('140.', { shown: '°F', silent: false })
  expect(typedIn(draft)).toEqual({ text: '140.', unit: '°F' })
  expect(textIn(draft, { unit: '°C', shown: '°F' })).toBe('140.')
  expect(textIn(draft, { unit: '°C', shown: '°C' })).toBe('60')
  expect(draftOfTyped('60', { shown: '°C', silent: true })).toBe('60')
  expect(draftOfTyped(' ', { shown: '°F', silent: false })).toBe('')
})

test('a unit of another kind of quantity typed into a field makes it no number, never a converted one', () => {
  expect(readTypedQuantity(draftOfTyped('5 in', { shown: '°C', silent: true })).kind).toBe('unreadable')
})

test('a value without a unit, as from a file, reads in the unit shown and stays what it is', () => {
  expect(textIn('25', { unit: 'mm', shown: 'in' })).toBe('0.98')
  expect(textIn('abc', { unit: 'mm', shown: 'in' })).toBe('abc')
  expect(textIn('', { unit: 'mm', shown: 'in' })).toBe('')
  expect(readTypedQuantity('25')).toMatchObject({ value: 25 })
})

test('looking at a typed value in the other unit and back leaves it as it was typed, in every unit', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...RECORD_UNITS),
      fc.boolean(),
      fc.integer({ min: 1, max: 99_999 }),
      fc.integer({ min: 0, max: 3 }),
      (unit, inOther, digits, places) => {
        const shown = inOther ? otherUnitOf(unit) : unit
        const decimals = isOtherUnit(shown) && shown.startsWith('°F') ? Math.min(places, 1) : places
        const text = (digits / 10 ** decimals).toFixed(decimals)
        const draft = draftOfTyped(text, { shown, silent: false })
        expect(textIn(draft, { unit, shown })).toBe(text)
        const there = textIn(draft, { unit, shown: inOther ? unit : otherUnitOf(unit) })
        // read again from the other unit it is the same to the places typed
        const again = readTypedQuantity(
          draftOfTyped(there, { shown: inOther ? unit : otherUnitOf(unit), silent: false }),
        )
        const given = readTypedQuantity(draft)
        if (again.kind !== 'number' || given.kind !== 'number') throw new TypeError('both must be numbers')
        const kept = inOther ? again.value : Number(again.value.toFixed(decimalsOf(given.value)))
        expect(kept).toBeCloseTo(given.value, 9)
      },
    ),
  )
})
