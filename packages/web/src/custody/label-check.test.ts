import { makeLabel } from '@rillmark/casebook/label/label.ts'
import { derive } from '@rillmark/casebook/state/derive.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { expect, test } from 'vitest'
import { checkLabel } from './label-check.ts'

const { make } = entryMaker('marram-house')
const [one, two, three] = [1, 2, 3].map((number) => makeLabel({ prefix: 'MRH', number }).id) as [string, string, string]
const collected = (label: string) =>
  make('sample.collected', { round: 'R1', stop: 'shower 401', label, sampleKind: 'bulk-hot', filter: 'none' })
const state = derive('marram-house', [
  collected(one),
  collected(two),
  collected('LAB 7'),
  make('consignment.opened', { consignment: 'Box 1', container: 'cooler' }),
  make('sample.packed', { consignment: 'Box 1', label: two }),
])

test('a label is read while it is typed: half of one is no error, a whole one says which sample it is', () => {
  expect(checkLabel(state, ' ')).toEqual({ kind: 'empty' })
  expect(checkLabel(state, one.slice(0, 7))).toEqual({ kind: 'going on' })
  expect(checkLabel(state, one.toLowerCase().replaceAll('-', ' '))).toEqual({
    kind: 'right',
    label: one,
    words: 'shower 401, bulk hot',
  })
  expect(checkLabel(state, 'LAB 7')).toMatchObject({ kind: 'right', label: 'LAB 7' })
})

test('a wrong character, an unknown sample and one that is packed already are told apart', () => {
  const swapped = one.replace(/(\d)(\d)$/, '$2$1')
  expect(checkLabel(state, swapped)).toMatchObject({ kind: 'wrong', advice: expect.stringContaining('check digits') })
  expect(checkLabel(state, three)).toMatchObject({ kind: 'wrong', advice: expect.stringContaining('no sample') })
  expect(checkLabel(state, two)).toMatchObject({ kind: 'wrong', advice: `${two} is already in Box 1.` })
})
