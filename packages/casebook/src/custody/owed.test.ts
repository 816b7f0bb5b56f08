import { beforeEach, describe, expect, test } from 'vitest'
import type { BodyOf } from '../entry/kinds.ts'
import { briefView } from '../brief/brief-view.ts'
import { Bench, LABORATORY } from './custody.fixture.ts'
import { custodyView } from './custody-view.ts'
import { owedSamples } from './owed.ts'
import { receiptBodySchema, receiptForm } from './receipt-form.ts'

let bench = new Bench()
type Arrivals = BodyOf<'consignment.received'>['samples']
const receipt = (samples: Arrivals) => ({
  consignment: 'Box 1',
  laboratory: 'Q',
  receivedBy: LABORATORY,
  sealIntact: true,
  samples,
})

beforeEach(() => {
  bench = new Bench()
  bench.collect('L1', 'L2', 'L3')
  bench.box('Box 1', 'L1', 'L2', 'L3')
})

describe('[CUS21] a rejected sample', () => {
  test('has a coded reason', () => {
    const samples: Arrivals = [
      { label: 'L1', condition: 'accepted', rejected: true },
      { label: 'L2', condition: 'too old', rejected: true },
      { label: 'L3', condition: 'leaking' },
    ]
    expect(bench.pathsOf('consignment.received', receipt(samples))).toEqual(['body.samples.0.condition'])
  })

  test('that is not in the box is owed, and never examined', () => {
    const said = (rejected?: boolean): Arrivals => [
      { label: 'L1', condition: 'not in the box', ...(rejected === undefined ? {} : { rejected }) },
      { label: 'L2', condition: 'accepted' },
      { label: 'L3', condition: 'accepted' },
    ]
    expect(bench.pathsOf('consignment.received', receipt(said(false)))).toEqual(['body.samples.0.rejected'])
    bench.write('consignment.received', receipt(said()))
    expect(owedSamples(bench.state, '2026-03-03').map(({ label, why }) => `${label}: ${why}`)).toEqual([
      'L1: rejected by the laboratory: not in the box',
    ])
  })

  test('is owed until its point was sampled again; one noted but examined is not; a broken one is rejected unless it says otherwise', () => {
    bench.write(
      'consignment.received',
      receipt([
        { label: 'L1', condition: 'too warm', rejected: true },
        { label: 'L2', condition: 'broken', notes: 'neck cracked' },
        { label: 'L3', condition: 'leaking' },
      ]),
    )
    expect(owedSamples(bench.state, '2026-03-03').map(({ label, why }) => `${label}: ${why}`)).toEqual([
      'L1: rejected by the laboratory: too warm',
      'L2: rejected by the laboratory: broken',
    ])
    expect(custodyView(bench.state, 0).exceptions.map(({ label, rejected }) => [label, rejected])).toEqual([
      ['L1', true],
      ['L2', true],
      ['L3', false],
    ])
    const again = bench.make('sample.collected', {
      round: 'R1',
      stop: 'S L1',
      label: 'L4',
      sampleKind: 'bulk-hot',
      filter: 'none',
    })
    bench.given({ ...again, instant: '2026-03-04T08:00:00.000Z' })
    expect(owedSamples(bench.state, '2026-03-05').map(({ label }) => label)).toEqual(['L2'])
  })

  test('is called for in the brief', () => {
    bench.write(
      'consignment.received',
      receipt(['L1', 'L2', 'L3'].map((label) => ({ label, condition: 'too old', rejected: true }))),
    )
    const lines = briefView(bench.state, { nowMs: Date.parse('2026-03-03T08:00:00Z'), today: '2026-03-03' }).next
    expect(lines.map(({ words }) => words)).toContain('Sample again: the laboratory rejected 3 samples')
  })
})

describe('[CUS22] what a laboratory is shown and may say', () => {
  test('is one consignment: labels, kinds, times, volumes, seal; no place, no case', () => {
    bench.given(
      bench.make('case.recorded', {
        code: 'C1',
        classification: 'confirmed',
        link: 'not judged',
        isolate: 'not known',
      }),
    )
    bench.box('Box 2')
    const form = receiptForm(bench.state, 'Box 1')
    expect(form?.samples.map(({ label, kind, volumeMl }) => [label, kind, volumeMl])).toEqual([
      ['L1', 'bulk hot', 1000],
      ['L2', 'bulk hot', 1000],
      ['L3', 'bulk hot', 1000],
    ])
    expect(JSON.stringify(form)).not.toMatch(/C1|Box 2|S L1/)
    expect(receiptForm(bench.state, 'Box 9')).toBeUndefined()
  })

  test('is the receipt, without the name of a consignment', () => {
    const { consignment, ...body } = receipt([{ label: 'L1', condition: 'accepted' }])
    expect(receiptBodySchema.safeParse(body).success).toBe(true)
    expect(receiptBodySchema.safeParse({ ...body, consignment }).success).toBe(false)
  })

  test('stays to be read once it is in the record', () => {
    const brought = receiptForm(bench.state, 'Box 1')?.from
    bench.write('consignment.received', receipt(['L1', 'L2', 'L3'].map((label) => ({ label, condition: 'accepted' }))))
    // who brought it is not who took it in
    expect(receiptForm(bench.state, 'Box 1')?.from).toEqual(brought)
    expect(brought?.name).not.toBe(LABORATORY.name)
    expect(receiptForm(bench.state, 'Box 1')?.received).toMatchObject({ receivedBy: LABORATORY, laboratory: 'Q' })
  })
})
