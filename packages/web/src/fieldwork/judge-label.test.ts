import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
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

it('names the stop a label was used at by what a person knows it by', () => {
  const { make } = entryMaker('marram-house')
  const stop = { ...plan.stop, id: 'added-demo-phone-1', title: 'Hose in the yard', samples: [] }
  const added = make('stop.added', { round: 'R1', stop, reason: 'found on the spot' })
  const collected = (at: string) =>
    make('sample.collected', { round: 'R1', stop: at, label: label(1), sampleKind: 'bulk-hot', filter: 'none' })
  const judged = (at: string) => {
    const there = derive('marram-house', [added, collected(at)])
    const round = new Map([['R1', { body: { plan: { stops: [] } } }]])
    const withRound = { ...there, plan: { ...there.plan, rounds: round as unknown as typeof there.plan.rounds } }
    return judgeLabel({ typed: label(1), expected: label(1), plan, state: withRound })
  }
  expect(judged(stop.id)).toEqual({
    kind: 'wrong',
    why: `${label(1)} is already on a sample of Hose in the yard, round R1.`,
  })
  expect(judged('S9')).toMatchObject({ why: expect.stringContaining('another stop, round R1') })
})
