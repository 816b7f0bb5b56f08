import { describe, expect, test } from 'vitest'
import { makeLabel } from '../label/label.ts'
import { derive } from '../state/derive.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import type { ResultValue } from '../units/result-value.ts'
import { waitingSamples } from './waiting.ts'

const { make } = entryMaker('marram-house')
const label = makeLabel({ prefix: 'MRH', number: 1 }).id
const taken = make('sample.collected', { round: 'R1', stop: 's1', label, sampleKind: 'bulk-hot', filter: 'none' })
const result = (value: ResultValue, status: 'preliminary' | 'final') =>
  make('result.reported', { label, laboratory: 'Q', method: 'culture', target: 'Legionella', value, status })

describe('[RES22] a sample waits until a final result can be read', () => {
  test.each([
    ['nothing reported', [], 'no result yet'],
    ['preliminary', [result({ kind: 'detected' }, 'preliminary')], 'only preliminary'],
    ['overgrown', [result({ kind: 'overgrown' }, 'final')], 'not interpretable: sample again'],
  ] as const)('%s', (_, entries, why) => {
    const [waiting] = waitingSamples(derive('marram-house', [taken, ...entries]), '2026-03-12')
    expect(waiting).toMatchObject({ why, days: 10, sample: { label } })
  })
  test('final and readable', () => {
    const state = derive('marram-house', [taken, result({ kind: 'not-detected' }, 'final')])
    expect(waitingSamples(state, '2026-03-12')).toEqual([])
  })
})
