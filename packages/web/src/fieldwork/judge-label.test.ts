import { derive } from '@rillmark/casebook/state/derive.ts'
import { makeLabel } from '@rillmark/casebook/label/label.ts'
import { expect, it } from 'vitest'
import { judgeLabel } from './judge-label.ts'

const state = derive('marram-house', [])
const label = (number: number): string => makeLabel({ prefix: 'MRH', number }).id
const samples = [1, 2].map((number) => ({ sampleKind: 'bulk-hot' as const, procedure: 'tap', label: label(number) }))
const plan = { stop: { id: 'S1', title: 'Room 304', samples, reasons: [], rank: 1, minutes: 5 } }
const judge = (typed: string, expected: string | undefined = label(1)) => judgeLabel({ typed, expected, plan, state })

it('says nothing until the label could be whole', () => {
  expect(judge('')).toEqual({ kind: 'nothing' })
  expect(judge(label(1).slice(0, -1))).toEqual({ kind: 'nothing' })
})

it('takes the expected label however it is spaced, and says when O was read as 0', () => {
  expect(judge(label(1).toLowerCase().replaceAll('-', ' '))).toEqual({
    kind: 'right',
    label: label(1),
    note: undefined,
  })
  expect(judge(label(1).replace('0', 'O'))).toMatchObject({
    kind: 'right',
    note: expect.stringContaining('O was read as 0'),
  })
})

it('names a mis-keyed label, one of the other container and one of nowhere', () => {
  const last = label(1).at(-1) === '0' ? '1' : '0'
  expect(judge(label(1).slice(0, -1) + last)).toMatchObject({
    kind: 'wrong',
    why: expect.stringContaining('check digits do not fit'),
  })
  expect(judge(label(2))).toMatchObject({ kind: 'wrong', why: expect.stringContaining('the other container') })
  expect(judge(label(9))).toMatchObject({ kind: 'wrong', why: expect.stringContaining('sheet of labels') })
})
