import { beforeEach, describe, expect, test } from 'vitest'
import type { Entry } from '../entry/entry.ts'
import type { BodyOf, Kind } from '../entry/kinds.ts'
import { checkEntry } from '../rules/check-entry.ts'
import { derive, extend } from '../state/derive.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import { custodyView, nextHoldDeadline } from './custody-view.ts'

// Entries are a minute apart from 2026-03-02T08:00Z, so the first is written at 08:01.
const START_MS = Date.parse('2026-03-02T08:00:00.000Z')
const MINUTE_MS = 60_000
const HOUR_MS = 3_600_000
const sampler = { name: 'T. Okoro', role: 'sampler' }
const courier = { name: 'J. Brandt', role: 'courier' }

let maker = entryMaker('marram-house')
let state = derive('marram-house', [])

const collected = (label: string, sampleKind: BodyOf<'sample.collected'>['sampleKind'] = 'bulk-hot'): Entry =>
  maker.make('sample.collected', { round: 'R1', stop: 'S1', label, sampleKind, filter: 'none' })

function write<K extends Kind>(kind: K, body: BodyOf<K>): void {
  const checked = checkEntry(state, maker.make(kind, body))
  if (!checked.ok) throw new Error(JSON.stringify(checked.issues))
  state = extend(state, [checked.entry])
}

function pathsOf<K extends Kind>(kind: K, body: BodyOf<K>): string[] {
  const checked = checkEntry(state, maker.make(kind, body))
  return checked.ok ? [] : checked.issues.map(({ path }) => path)
}

beforeEach(() => {
  maker = entryMaker('marram-house')
  state = extend(derive('marram-house', []), [collected('L1'), collected('L2')]) // 08:01, 08:02
  write('consignment.opened', { consignment: 'Box 1', container: 'cooler' }) // 08:03
})

describe('hold time', () => {
  test('[CUS9] runs from the instant of collection, by the hours of the procedure, for each sample', () => {
    write('sample.packed', { consignment: 'Box 1', label: 'L1' })
    const nowMs = START_MS + 15 * HOUR_MS
    const { consignments, loose } = custodyView(state, nowMs)
    // 24 h: EN ISO 19458 as restated by a drinking-water laboratory (seen), in the procedure
    expect(consignments[0]?.next).toMatchObject({ label: 'L1', leftMs: 9 * HOUR_MS + MINUTE_MS, clock: 'running' })
    expect(loose.map(({ label }) => label)).toEqual(['L2'])
    expect(nextHoldDeadline(state, nowMs)).toMatchObject({ about: 'Box 1', leftMs: 9 * HOUR_MS + MINUTE_MS })
  })

  test('[CUS9] goes on after it ended, and the sample is said to be late', () => {
    const { late, loose } = custodyView(state, START_MS + 26 * HOUR_MS)
    expect(late.map(({ label, clock }) => `${label} ${clock}`)).toEqual(['L1 over', 'L2 over'])
    expect(loose[0]?.leftMs).toBe(-2 * HOUR_MS + MINUTE_MS)
  })

  test('[CUS10] figures that disagree are shown with the one in use', () => {
    const hold = custodyView(state, START_MS).loose[0]?.hold
    expect(hold?.hours).toBe(24)
    expect(hold?.disagreeingHours.map(({ value }) => value)).toEqual([48])
    expect(hold?.disagreeingTransport.map(({ value }) => value)).toEqual([
      { min: 6, max: 18 },
      { min: 15, max: 25 },
    ])
  })

  test('[CUS9] stops when the laboratory takes the sample in, at the time written on the receipt', () => {
    write('sample.packed', { consignment: 'Box 1', label: 'L1' })
    write('sample.packed', { consignment: 'Box 1', label: 'L2' })
    const at = '2026-03-02T08:05:00.000Z'
    write('consignment.received', {
      consignment: 'Box 1',
      laboratory: 'Quillhaven Water Laboratory',
      receivedBy: courier,
      sealIntact: true,
      at,
      samples: [
        { label: 'L1', condition: 'accepted' },
        { label: 'L2', condition: 'leaking', notes: 'cap loose' },
      ],
    })
    const { consignments, exceptions, late } = custodyView(state, START_MS + 90 * HOUR_MS)
    expect(consignments[0]).toMatchObject({ stage: 'received', next: undefined, holder: courier })
    expect(consignments[0]?.samples[0]).toMatchObject({
      clock: 'stopped in time',
      leftMs: 24 * HOUR_MS - 4 * MINUTE_MS,
    })
    expect(exceptions).toMatchObject([{ label: 'L2', condition: 'leaking', conditionNotes: 'cap loose' }])
    expect(late).toEqual([])
    expect(nextHoldDeadline(state, START_MS)).toBeUndefined()
  })

  test('[CUS9] a sample with a result no longer runs, and readings never do', () => {
    state = extend(state, [
      collected('L3', 'readings-only'),
      maker.make('result.reported', {
        label: 'L1',
        laboratory: 'Quillhaven Water Laboratory',
        method: 'culture',
        target: 'Legionella',
        value: { kind: 'not-detected', volumeMl: 1000 },
        status: 'final',
      }),
    ])
    expect(custodyView(state, START_MS).loose.map(({ label }) => label)).toEqual(['L2'])
  })
})

describe('transport temperature', () => {
  const logs = (...degrees: number[]): void => {
    write('sample.packed', { consignment: 'Box 1', label: 'L1' })
    for (const temperatureC of degrees) write('temperature.logged', { consignment: 'Box 1', temperatureC })
  }
  const judged = () => custodyView(state, START_MS).consignments[0]?.temperature

  // 5 ± 3 °C: EN ISO 19458 as restated by a drinking-water laboratory (seen)
  test.each([
    [[], 'not logged'],
    [[2, 8], 'within, as far as measured'],
    [[5, 8.1], 'too warm'],
    [[1.9, 5], 'too cold'],
    [[1, 12], 'too warm and too cold'],
  ])('[CUS11] %j is %s', (degrees, judgement) => {
    logs(...degrees)
    expect(judged()?.judgement).toBe(judgement)
  })

  test('[CUS11] every temperature written counts, wherever it was read', () => {
    logs(5)
    write('consignment.sealed', { consignment: 'Box 1', seal: '0451', temperatureC: 3 })
    write('consignment.handed-over', {
      consignment: 'Box 1',
      from: sampler,
      to: courier,
      sealIntact: true,
      temperatureC: 9.5,
    })
    expect(judged()).toMatchObject({
      judgement: 'too warm',
      coldest: { temperatureC: 3, where: 'when sealed' },
      warmest: { temperatureC: 9.5, where: 'at hand-over' },
    })
  })

  test('[CUS11] a range set for the consignment takes the place of the procedures', () => {
    write('consignment.opened', { consignment: 'Box 2', container: 'box', transportC: { lower: 15, upper: 25 } })
    write('sample.packed', { consignment: 'Box 2', label: 'L2' })
    write('temperature.logged', { consignment: 'Box 2', temperatureC: 20 })
    expect(custodyView(state, START_MS).consignments[1]?.temperature.judgement).toBe('within, as far as measured')
  })
})

describe('the chain', () => {
  test('[CUS12] says in order what happened, who gave and who took, with times as they were', () => {
    write('sample.packed', { consignment: 'Box 1', label: 'L1' }) // 08:04
    write('sample.packed', { consignment: 'Box 1', label: 'L2' }) // 08:05
    write('consignment.sealed', { consignment: 'Box 1', seal: '0451' }) // 08:06
    write('consignment.handed-over', { consignment: 'Box 1', from: sampler, to: courier, sealIntact: false }) // 08:07
    write('temperature.logged', { consignment: 'Box 1', temperatureC: 5, at: '2026-03-02T08:06:30.000Z' })
    const [box] = custodyView(state, START_MS).consignments
    expect(box?.chain.map(({ what }) => what)).toEqual([
      'cooler opened',
      '2 samples packed',
      'sealed, 0451',
      'temperature logged',
      'handed over',
    ])
    expect(box).toMatchObject({ stage: 'on its way', holder: courier, seal: '0451', sealProblems: 1 })
  })

  test('[CUS8] a time given is not ahead of the writing, nor before the samples were collected', () => {
    write('sample.packed', { consignment: 'Box 1', label: 'L2' })
    const over = { consignment: 'Box 1', from: sampler, to: courier, sealIntact: true }
    expect(pathsOf('consignment.handed-over', { ...over, at: '2026-03-02T23:00:00.000Z' })).toEqual(['body.at'])
    expect(pathsOf('consignment.handed-over', { ...over, at: '2026-03-02T08:00:00.000Z' })).toEqual(['body.at'])
    expect(pathsOf('consignment.handed-over', { ...over, at: '2026-03-02T08:02:00.000Z' })).toEqual([])
  })

  test('[CUS8] a hand-over or receipt is not before the hand-over it follows', () => {
    write('sample.packed', { consignment: 'Box 1', label: 'L1' })
    write('consignment.handed-over', { consignment: 'Box 1', from: sampler, to: courier, sealIntact: true })
    const back = { consignment: 'Box 1', from: courier, to: sampler, sealIntact: true }
    expect(pathsOf('consignment.handed-over', { ...back, at: '2026-03-02T08:02:00.000Z' })).toEqual(['body.at'])
    expect(pathsOf('consignment.handed-over', back)).toEqual([])
  })
})
