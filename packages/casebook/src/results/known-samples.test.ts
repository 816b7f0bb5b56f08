import { beforeEach, expect, test } from 'vitest'
import { Bench } from '../custody/custody.fixture.ts'
import { sampleRows } from '../findings/sample-rows.ts'
import { knownSamples } from './known-samples.ts'
import { labelMatcher } from './label-match.ts'
import { waitingSamples } from './waiting.ts'

const OTHER_PARTY = { name: 'P. Lindqvist', role: 'for the owner' }
let bench = new Bench()
beforeEach(() => {
  bench = new Bench()
  bench.collect('L1', 'L2')
  bench.write('sample.split', { label: 'L1', split: 'OP-1', volumeMl: 400, to: OTHER_PARTY })
  bench.write('sample.split', { label: 'OP-1', split: 'OP-2', volumeMl: 100, to: OTHER_PARTY })
})

function result(label: string, count: number | undefined, laboratory = 'Quillhaven Water Laboratory') {
  const value =
    count === undefined
      ? ({ kind: 'below', limit: 100, unit: 'CFU/L' } as const)
      : ({ kind: 'count', value: count, unit: 'CFU/L' } as const)
  return { label, laboratory, method: 'culture', target: 'Legionella', value, status: 'final' } as const
}

const rowOf = (label: string) => sampleRows(bench.state).find((row) => row.label === label)

test('[RES24] a label of a part is known as that, with its sample and for whom it was divided, also where it was divided again', () => {
  const known = knownSamples(bench.state)
  expect(known.get('OP-1')).toMatchObject({
    origin: 'part of a sample',
    stop: 'S L1',
    sampleKind: 'bulk-hot',
    partOf: { label: 'L1', to: OTHER_PARTY },
  })
  expect(known.get('OP-2')?.partOf?.label).toBe('L1')
  expect(labelMatcher(known)('op 1')).toMatchObject({ kind: 'known', sample: { partOf: { label: 'L1' } } })
})

test('[RES24] a result on a part stands with its sample and says on which part; the sample’s own stands beside it', () => {
  bench.write('result.reported', result('L1', undefined))
  bench.write('result.reported', result('OP-2', 1200, 'Harbour Laboratory'))
  const row = rowOf('L1')
  expect(row?.results.map(({ entry, outcome, part }) => [entry.body.laboratory, outcome, part])).toEqual([
    ['Quillhaven Water Laboratory', 'negative', undefined],
    ['Harbour Laboratory', 'positive', { label: 'OP-2', to: OTHER_PARTY }],
  ])
  expect(row?.outcome).toBe('positive')
  expect(rowOf('L2')?.results).toEqual([])
  expect(sampleRows(bench.state)).toHaveLength(2)
})

test('[RES24] nobody waits for the result of a part, and a result on one does not end waiting for that of the sample', () => {
  bench.write('result.reported', result('OP-1', undefined))
  expect(waitingSamples(bench.state, '2026-03-20').map(({ sample }) => sample.label)).toEqual(['L1', 'L2'])
})

test('[RES24] a result on a part is held to what its sample is', () => {
  expect(bench.pathsOf('result.reported', { ...result('OP-1', undefined), reportedOn: '2020-01-01' })).toEqual([
    'body.reportedOn',
  ])
  const swab = { kind: 'count', value: 3, unit: 'CFU/swab' } as const
  expect(bench.pathsOf('result.reported', { ...result('OP-1', undefined), value: swab })).toEqual(['body.value.unit'])
  expect(bench.pathsOf('result.reported', result('OP-9', undefined))).toEqual(['body.label'])
})
