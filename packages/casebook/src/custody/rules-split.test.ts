import { beforeEach, describe, expect, test } from 'vitest'
import { checkEntry } from '../rules/check-entry.ts'
import { makeLabel } from '../label/label.ts'
import { custodyView, nextHoldDeadline } from './custody-view.ts'
import { Bench, COURIER, LABORATORY, SAMPLER } from './custody.fixture.ts'

const OTHER_PARTY = { name: 'P. Lindqvist', role: 'for the owner' }
const split = { label: 'L1', split: 'OP-1', volumeMl: 400, to: OTHER_PARTY }
let bench = new Bench()
const view = () => custodyView(bench.state, Date.parse('2026-03-02T09:00:00.000Z'))

beforeEach(() => {
  bench = new Bench()
  bench.collect('L1', 'L2')
})

describe('[CUS19] a split', () => {
  test('is of a collected sample with water in it, under a label nobody else has', () => {
    expect(bench.pathsOf('sample.split', split)).toEqual([])
    expect(bench.pathsOf('sample.split', { ...split, label: 'L9' })).toEqual(['body.label'])
    expect(bench.pathsOf('sample.split', { ...split, split: 'L2' })).toEqual(['body.split'])
    expect(bench.pathsOf('sample.split', { ...split, split: 'L1' })).toContain('body.split')
    const { id } = makeLabel({ prefix: 'MRH', number: 7 })
    expect(bench.pathsOf('sample.split', { ...split, split: id })).toEqual([])
    expect(
      bench.pathsOf('sample.split', { ...split, split: id.replace(/\d$/, (d) => String((Number(d) + 1) % 10)) }),
    ).toEqual(['body.split'])
    bench.write('sample.split', split)
    expect(bench.pathsOf('sample.split', { ...split, label: 'L2' })).toEqual(['body.split'])
    const registered = { label: 'OP-1', takenBy: 'others', place: 'x', draw: 'not stated' as const }
    expect(bench.pathsOf('sample.registered', registered as never)).toContain('body.label')
  })

  test('gives no more away than there is, and leaves some, over all parts and amendments', () => {
    const first = bench.write('sample.split', split)
    expect(bench.pathsOf('sample.split', { ...split, split: 'OP-2', volumeMl: 600 })).toEqual(['body.volumeMl'])
    bench.write('sample.split', { ...split, split: 'OP-2', volumeMl: 500 })
    const because = { corrects: { entry: first.id, reason: 'measured again' } }
    expect(bench.pathsOf('sample.split', { ...split, volumeMl: 500 }, because)).toEqual(['body.volumeMl'])
    expect(bench.pathsOf('sample.split', { ...split, volumeMl: 450 }, because)).toEqual([])
    expect(bench.pathsOf('sample.split', { ...split, split: 'OP-9' }, because)).toEqual(['body.split'])
    expect(bench.pathsOf('sample.split', { label: 'OP-1', split: 'OP-1a', volumeMl: 400, to: COURIER })).toEqual([
      'body.volumeMl',
    ])
  })

  test('is not made out of a sealed box', () => {
    bench.box('Box 1', 'L1')
    bench.write('consignment.sealed', { consignment: 'Box 1', seal: '0451' })
    expect(bench.pathsOf('sample.split', split)).toEqual(['body.label'])
    bench.write('seal.opened', { consignment: 'Box 1', by: SAMPLER, reason: 'to divide a sample' })
    expect(bench.pathsOf('sample.split', split)).toEqual([])
  })

  test('is not made before its sample was collected, nor ahead of the writing', () => {
    expect(bench.pathsOf('sample.split', { ...split, at: '2026-03-02T07:00:00.000Z' })).toEqual(['body.at'])
    expect(bench.pathsOf('sample.split', { ...split, at: '2026-03-03T07:00:00.000Z' })).toEqual(['body.at'])
  })
})

describe('[CUS20] the custody of a split is followed on its own', () => {
  test('it waits to be packed, its hold time runs from the collection of its sample, and both know each other', () => {
    bench.write('sample.split', split)
    const [one, , part] = view().loose
    expect(one).toMatchObject({ label: 'L1', volumeMl: 1000, leftMl: 600, parts: ['OP-1'], splitOf: undefined })
    expect(part).toMatchObject({ label: 'OP-1', volumeMl: 400, splitOf: { label: 'L1', to: OTHER_PARTY } })
    expect(part?.deadlineMs).toBe(one?.deadlineMs)
  })

  test('it lies where it was packed, whatever becomes of its sample, and never in two places', () => {
    bench.write('sample.split', split)
    bench.box('Bag 1', 'OP-1')
    bench.box('Box 1', 'L1')
    expect(view().consignments.map(({ code, samples }) => [code, samples.map(({ label }) => label)])).toEqual([
      ['Bag 1', ['OP-1']],
      ['Box 1', ['L1']],
    ])
    expect(bench.pathsOf('sample.packed', { consignment: 'Box 1', label: 'OP-1' })).toEqual(['body.label'])
  })

  test('[CUS25] it lies with parts for the same party and nothing else, and nothing else is packed beside it', () => {
    bench.write('sample.split', split)
    bench.write('sample.split', { ...split, label: 'L2', split: 'OP-2' })
    bench.write('sample.split', { ...split, split: 'LAB-2', volumeMl: 100, to: LABORATORY })
    bench.box('Box 1', 'L1')
    bench.box('Bag 1', 'OP-1', 'OP-2')
    const into = (consignment: string, label: string) =>
      checkEntry(bench.state, bench.make('sample.packed', { consignment, label }))
    expect(into('Box 1', 'LAB-2')).toMatchObject({
      ok: false,
      issues: [{ path: 'body.consignment', expected: 'a box with nothing but parts for M. Aydin' }],
    })
    for (const label of ['L2', 'LAB-2'])
      expect(into('Bag 1', label)).toMatchObject({
        ok: false,
        issues: [{ received: 'Bag 1, which holds OP-1 for P. Lindqvist' }],
      })
    expect(into('Box 1', 'L2').ok).toBe(true)
    // past the rules (an import) it does not count and is told
    bench.given(bench.make('sample.packed', { consignment: 'Bag 1', label: 'L2' }))
    expect(bench.state.custody.consignmentOf.has('L2')).toBe(false)
    expect(bench.state.custody.conflicts).toHaveLength(1)
  })

  test('handed over it is with the other party, and its time is theirs', () => {
    bench.write('sample.split', split)
    bench.box('Bag 1', 'OP-1')
    bench.write('consignment.handed-over', { consignment: 'Bag 1', from: SAMPLER, to: OTHER_PARTY, sealIntact: true })
    expect(view().consignments[0]).toMatchObject({
      stage: 'with the other party',
      holder: OTHER_PARTY,
      next: undefined,
    })
    expect(nextHoldDeadline(bench.state, 0)?.about).toBe('L1, not packed')
  })

  test('its withdrawal waits until it was taken out and its own parts are withdrawn', () => {
    const made = bench.write('sample.split', split)
    const withdrawal = { corrects: { entry: made.id, reason: 'not divided after all' } }
    bench.box('Bag 1', 'OP-1')
    expect(bench.pathsOf('entry.withdrawn', {}, withdrawal)).toEqual(['corrects.entry'])
    bench.write('sample.unpacked', { consignment: 'Bag 1', label: 'OP-1', reason: 'not divided after all' })
    expect(bench.pathsOf('entry.withdrawn', {}, withdrawal)).toEqual([])
  })
})

test('[CUS7] the laboratory of the other party says how their part came', () => {
  bench.write('sample.split', split)
  bench.box('Bag 1', 'OP-1')
  bench.write('consignment.received', {
    consignment: 'Bag 1',
    laboratory: 'Theirs',
    receivedBy: LABORATORY,
    sealIntact: true,
    samples: [{ label: 'OP-1', condition: 'accepted' }],
  })
  expect(view().consignments[0]?.samples[0]).toMatchObject({ condition: 'accepted', clock: 'stopped in time' })
  expect(view().late).toEqual([])
})
