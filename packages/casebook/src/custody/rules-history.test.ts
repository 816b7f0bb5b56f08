import { beforeEach, describe, expect, test } from 'vitest'
import { Bench, COURIER, LABORATORY, SAMPLER } from './custody.fixture.ts'

let bench = new Bench()
const because = (entry: { id: string }) => ({ corrects: { entry: entry.id, reason: 'written by mistake' } })
const withdrawal = (entry: { id: string }): string[] => bench.pathsOf('entry.withdrawn', {}, because(entry))

beforeEach(() => {
  bench = new Bench()
  bench.collect('L1', 'L2', 'L3')
})

describe('[CUS13] an entry that does not fit and came past the rules', () => {
  test('does not count: no sample is in two consignments', () => {
    bench.box('Box 1', 'L1')
    bench.box('Box 2')
    bench.given(bench.make('sample.packed', { consignment: 'Box 2', label: 'L1' }))
    const { consignments, consignmentOf, conflicts } = bench.state.custody
    expect([...(consignments.get('Box 2')?.labels ?? [])]).toEqual([])
    expect(consignmentOf.get('L1')).toBe('Box 1')
    expect(conflicts.map(({ entry, issues }) => [entry.kind, issues[0]?.received])).toEqual([
      ['sample.packed', '"L1, now in Box 1"'],
    ])
  })

  test('puts nothing into a sealed or received consignment, and takes nothing out', () => {
    bench.box('Box 1', 'L1')
    bench.write('consignment.sealed', { consignment: 'Box 1', seal: '0451' })
    bench.given(
      bench.make('sample.packed', { consignment: 'Box 1', label: 'L2' }),
      bench.make('sample.unpacked', { consignment: 'Box 1', label: 'L1', reason: 'x' }),
      bench.make('sample.packed', { consignment: 'Box 9', label: 'L3' }),
    )
    expect([...(bench.state.custody.consignments.get('Box 1')?.labels ?? [])]).toEqual(['L1'])
    expect(bench.state.custody.conflicts).toHaveLength(3)
  })
})

describe('[CUS14] the past is corrected only where what was written since still fits', () => {
  test('taking out is not withdrawn once the sample lies elsewhere', () => {
    bench.box('Box 1', 'L1', 'L2')
    const out = bench.write('sample.unpacked', { consignment: 'Box 1', label: 'L1', reason: 'wrong box' })
    expect(withdrawal(out)).toEqual([])
    bench.box('Box 2', 'L1')
    expect(withdrawal(out)).toEqual(['corrects.entry'])
  })

  test('packing is not withdrawn out of a sealed box, nor brought back into one', () => {
    bench.box('Box 1', 'L1', 'L2', 'L3')
    const packed = bench.state.record.entries.find(({ kind }) => kind === 'sample.packed')
    const out = bench.write('sample.unpacked', { consignment: 'Box 1', label: 'L3', reason: 'leaks' })
    bench.write('consignment.sealed', { consignment: 'Box 1', seal: '0451' })
    expect(withdrawal(packed ?? { id: '' })).toEqual(['corrects.entry'])
    expect(withdrawal(out)).toEqual(['corrects.entry'])
  })

  test('a consignment in use is not withdrawn or given another code; unused it is', () => {
    const empty = bench.write('consignment.opened', { consignment: 'Box 1', container: 'cooler' })
    expect(withdrawal(empty)).toEqual([])
    bench.write('sample.packed', { consignment: 'Box 1', label: 'L1' })
    expect(withdrawal(empty)).toEqual(['corrects.entry'])
    const renamed = { consignment: 'Box 7', container: 'cooler' as const }
    expect(bench.pathsOf('consignment.opened', renamed, because(empty))).toEqual(['corrects.entry'])
    expect(bench.pathsOf('consignment.opened', { ...renamed, consignment: 'Box 1' }, because(empty))).toEqual([])
  })

  test('a seal is withdrawn until the box was handed on; opening it is not where something went in since', () => {
    bench.box('Box 1', 'L1')
    const seal = bench.write('consignment.sealed', { consignment: 'Box 1', seal: '0451' })
    expect(withdrawal(seal)).toEqual([])
    const opened = bench.write('seal.opened', { consignment: 'Box 1', by: SAMPLER, reason: 'forgot one' })
    bench.write('sample.packed', { consignment: 'Box 1', label: 'L2' })
    expect(withdrawal(opened)).toEqual(['corrects.entry'])
    const again = bench.write('consignment.sealed', { consignment: 'Box 1', seal: '0452' })
    bench.write('consignment.handed-over', { consignment: 'Box 1', from: SAMPLER, to: COURIER, sealIntact: true })
    expect(withdrawal(again)).toEqual(['corrects.entry'])
    expect(bench.pathsOf('consignment.sealed', { consignment: 'Box 1', seal: '0453' }, because(again))).toEqual([])
  })

  test('a hand-over keeps its receiver where that one handed it on', () => {
    bench.box('Box 1', 'L1')
    const over = { consignment: 'Box 1', sealIntact: true }
    const first = bench.write('consignment.handed-over', { ...over, from: SAMPLER, to: COURIER })
    bench.write('consignment.handed-over', { ...over, from: COURIER, to: LABORATORY })
    expect(
      bench.pathsOf('consignment.handed-over', { ...over, from: SAMPLER, to: LABORATORY }, because(first)),
    ).toEqual(['corrects.entry'])
    expect(withdrawal(first)).toEqual([])
    expect(bench.pathsOf('consignment.handed-over', { ...over, from: SAMPLER, to: SAMPLER }, because(first))).toContain(
      'body.to.name',
    )
  })

  test('a sample in a box or divided stays collected, under its label', () => {
    const [first, second] = bench.state.record.entries
    bench.box('Box 1', 'L1')
    bench.write('sample.split', { label: 'L2', split: 'OP-2', volumeMl: 300, to: COURIER })
    expect(withdrawal(first ?? { id: '' })).toEqual(['corrects.entry'])
    expect(withdrawal(second ?? { id: '' })).toEqual(['corrects.entry'])
  })
})

test('[CUS7] once received, nothing goes in or out, and no seal goes on', () => {
  bench.box('Box 1', 'L1')
  const samples = [{ label: 'L1', condition: 'accepted' as const }]
  const receipt = { consignment: 'Box 1', laboratory: 'Q', receivedBy: LABORATORY, sealIntact: false, samples }
  expect(bench.pathsOf('consignment.received', { ...receipt, samples: [...samples, ...samples] })).toEqual([
    'body.samples',
  ])
  bench.write('consignment.received', receipt)
  expect(bench.pathsOf('sample.unpacked', { consignment: 'Box 1', label: 'L1', reason: 'x' })).toEqual([
    'body.consignment',
  ])
  expect(bench.pathsOf('consignment.sealed', { consignment: 'Box 1', seal: '9' })).toEqual(['body.consignment'])
})
