import { beforeEach, expect, test } from 'vitest'
import type { Entry } from '../entry/entry.ts'
import type { BodyOf, Kind } from '../entry/kinds.ts'
import { checkEntry } from '../rules/check-entry.ts'
import { derive, extend } from '../state/derive.ts'
import { entryMaker } from '../testing/entry-maker.ts'

const maker = entryMaker('marram-house')
let state = derive('marram-house', [])
const sampler = { name: 'T. Okoro', role: 'sampler' }
const courier = { name: 'J. Brandt', role: 'courier' }

/** Writes without the rules of other steps in the way: the ground custody stands on. */
function given(...entries: Entry[]): void {
  state = extend(state, entries)
}

function pathsOf<K extends Kind>(kind: K, body: BodyOf<K>): string[] {
  const checked = checkEntry(state, maker.make(kind, body))
  return checked.ok ? [] : checked.issues.map(({ path }) => path)
}

function write<K extends Kind>(kind: K, body: BodyOf<K>): void {
  const checked = checkEntry(state, maker.make(kind, body))
  if (!checked.ok) throw new Error(JSON.stringify(checked.issues))
  given(checked.entry)
}

const collected = (label: string) =>
  maker.make('sample.collected', { round: 'R1', stop: 'S1', label, sampleKind: 'bulk-hot', filter: 'none' })

beforeEach(() => {
  state = derive('marram-house', [])
  given(collected('L1'), collected('L2'))
  write('consignment.opened', { consignment: 'Box 1', container: 'cooler' })
})

test('[CUS1] a consignment code is used once', () => {
  expect(pathsOf('consignment.opened', { consignment: 'Box 1', container: 'bag' })).toEqual(['body.consignment'])
})

test('[CUS2] only a collected sample is packed, and into a consignment that was opened', () => {
  expect(pathsOf('sample.packed', { consignment: 'Box 1', label: 'L9' })).toEqual(['body.label'])
  expect(pathsOf('sample.packed', { consignment: 'Box 7', label: 'L1' })).toEqual(['body.consignment'])
  expect(pathsOf('sample.packed', { consignment: 'Box 1', label: 'L1' })).toEqual([])
})

test('[CUS3] a sample is never in two consignments', () => {
  write('sample.packed', { consignment: 'Box 1', label: 'L1' })
  write('consignment.opened', { consignment: 'Box 2', container: 'cooler' })
  expect(pathsOf('sample.packed', { consignment: 'Box 2', label: 'L1' })).toEqual(['body.label'])
  write('sample.unpacked', { consignment: 'Box 1', label: 'L1', reason: 'wrong box' })
  expect(pathsOf('sample.packed', { consignment: 'Box 2', label: 'L1' })).toEqual([])
})

test('[CUS4] a sealed consignment takes no further sample and gives none up until its seal is opened', () => {
  write('sample.packed', { consignment: 'Box 1', label: 'L1' })
  write('consignment.sealed', { consignment: 'Box 1', seal: '0451' })
  expect(pathsOf('sample.packed', { consignment: 'Box 1', label: 'L2' })).toEqual(['body.consignment'])
  expect(pathsOf('sample.unpacked', { consignment: 'Box 1', label: 'L1', reason: 'x' })).toEqual(['body.consignment'])
  write('seal.opened', { consignment: 'Box 1', by: sampler, reason: 'one bottle was left out' })
  expect(pathsOf('sample.packed', { consignment: 'Box 1', label: 'L2' })).toEqual([])
})

test('[CUS5] a seal goes on a consignment with samples, once, with a number not used before', () => {
  expect(pathsOf('consignment.sealed', { consignment: 'Box 1', seal: '0451' })).toEqual(['body.consignment'])
  write('sample.packed', { consignment: 'Box 1', label: 'L1' })
  write('consignment.sealed', { consignment: 'Box 1', seal: '0451' })
  expect(pathsOf('consignment.sealed', { consignment: 'Box 1', seal: '0452' })).toEqual(['body.consignment'])
  write('seal.opened', { consignment: 'Box 1', by: sampler, reason: 'label check' })
  expect(pathsOf('consignment.sealed', { consignment: 'Box 1', seal: '0451' })).toEqual(['body.seal'])
})

test('[CUS6] a consignment is handed over by the one who holds it, to someone else', () => {
  write('sample.packed', { consignment: 'Box 1', label: 'L1' })
  const over = { consignment: 'Box 1', sealIntact: true }
  write('consignment.handed-over', { ...over, from: sampler, to: courier })
  expect(pathsOf('consignment.handed-over', { ...over, from: sampler, to: courier })).toEqual(['body.from.name'])
  expect(pathsOf('consignment.handed-over', { ...over, from: courier, to: courier })).toEqual(['body.to.name'])
})

test('[CUS7] the laboratory receives a consignment once and says the condition of every sample in it, and of no other', () => {
  write('sample.packed', { consignment: 'Box 1', label: 'L1' })
  write('sample.packed', { consignment: 'Box 1', label: 'L2' })
  const receipt = {
    consignment: 'Box 1',
    laboratory: 'Quillhaven Water Laboratory',
    receivedBy: courier,
    sealIntact: true,
  }
  const samples = [
    { label: 'L1', condition: 'accepted' as const },
    { label: 'L8', condition: 'broken' as const },
  ]
  expect(pathsOf('consignment.received', { ...receipt, samples })).toEqual(['body.samples', 'body.samples'])
  const whole = {
    ...receipt,
    samples: [samples[0] ?? { label: 'L1', condition: 'accepted' }, { label: 'L2', condition: 'leaking' as const }],
  }
  write('consignment.received', whole)
  expect(pathsOf('consignment.received', whole)).toEqual(['body.consignment'])
  expect(pathsOf('sample.packed', { consignment: 'Box 1', label: 'L1' })).toEqual(['body.consignment'])
})
