import { expect, test } from 'vitest'
import { findCriteriaSet } from '../criteria/criteria-sets.ts'
import type { Entry } from '../entry/entry.ts'
import { derive } from '../state/derive.ts'
import { count, NEGATIVE, OVERGROWN, roundWriter } from './follow-up.fixture.ts'
import { type RoundOutcome, roundOutcomes } from './round-outcomes.ts'

const write = roundWriter()
const date = '2026-04-01'
const sample = (label: string, more: object = {}): Entry => write.sample({ date, round: 'R2', label, ...more })

function outcomeOf(entries: Entry[], criteriaId?: string): RoundOutcome | undefined {
  const state = derive('marram-house', [write.adopted('R2'), ...entries])
  return roundOutcomes(state, criteriaId === undefined ? undefined : findCriteriaSet(criteriaId))[0]
}

test('[FUP1] a round is positive as soon as one sample is, whatever still waits', () => {
  const two = [sample('L1'), sample('L2')]
  expect(outcomeOf([...two])?.outcome).toBe('pending')
  expect(outcomeOf([...two, write.result('L1', NEGATIVE)])).toMatchObject({ outcome: 'pending', waitingLabels: ['L2'] })
  expect(outcomeOf([...two, write.result('L1', count(3), { status: 'preliminary' })])).toMatchObject({
    outcome: 'positive',
    positiveLabels: ['L1'],
  })
  expect(outcomeOf([...two, write.result('L1', NEGATIVE), write.result('L2', NEGATIVE)])).toMatchObject({
    outcome: 'negative',
    collectedOn: date,
    negativePoints: ['outlet-L1', 'outlet-L2'],
  })
  expect(outcomeOf([])).toMatchObject({ outcome: 'not sampled', collectedOn: undefined })
})

test('[FUP1] a preliminary negative waits for the final one, which takes the place of a preliminary positive', () => {
  const early = write.result('L1', NEGATIVE, { status: 'preliminary' })
  expect(outcomeOf([sample('L1'), early])?.outcome).toBe('pending')
  const presumed = write.result('L1', { kind: 'detected' }, { status: 'preliminary' })
  expect(outcomeOf([sample('L1'), presumed])?.outcome).toBe('positive')
  expect(outcomeOf([sample('L1'), presumed, write.result('L1', NEGATIVE)])?.outcome).toBe('negative')
  expect(outcomeOf([sample('L1'), presumed, write.result('L1', NEGATIVE, { method: 'PCR' })])?.outcome).toBe('positive')
})

test('[FUP1] the day is that of the last sample, where it was taken', () => {
  const late = write.sample({ date: '2026-04-02', round: 'R2', label: 'L2' })
  expect(outcomeOf([sample('L1'), late])?.collectedOn).toBe('2026-04-02')
  const west = { ...sample('L3'), instant: '2026-04-02T02:00:00.000Z', offset: '-05:00' } as Entry
  expect(outcomeOf([west])?.collectedOn).toBe('2026-04-01')
})

test('[FUP2] blanks and readings count for nothing', () => {
  const blank = sample('B1', { sampleKind: 'field-blank' })
  const reading = sample('T1', { sampleKind: 'readings-only' })
  const entries = [sample('L1'), blank, reading, write.result('L1', NEGATIVE), write.result('B1', count(5))]
  expect(outcomeOf(entries)).toMatchObject({ outcome: 'negative', labels: ['L1'] })
})

test('[FUP3] a point with nothing readable leaves the round not interpretable; one readable sample of the point is enough', () => {
  const swab = sample('L2', { component: 'shower-1', sampleKind: 'first-flush-swab' })
  const bulk = sample('L3', { component: 'shower-1' })
  const base = [sample('L1'), write.result('L1', NEGATIVE), swab, write.result('L2', OVERGROWN)]
  expect(outcomeOf(base)).toMatchObject({ outcome: 'not interpretable', unreadableLabels: ['L2'] })
  expect(outcomeOf([...base, bulk, write.result('L3', NEGATIVE)])).toMatchObject({
    outcome: 'negative',
    negativePoints: ['outlet-L1', 'shower-1'],
  })
})

test('[FUP3] a count that is half of a limit is no positive', () => {
  expect(outcomeOf([sample('L1'), write.result('L1', count(50), { halfLimitSuspected: true })])?.outcome).toBe(
    'negative',
  )
})

test('[FUP4] positive is what the criteria set says: any detection, or a share that calls for action', () => {
  const labels = Array.from({ length: 10 }, (_, index) => `L${index}`)
  const samples = labels.map((label) => sample(label))
  const results = (positives: number): Entry[] =>
    labels.map((label, index) => write.result(label, index < positives ? count(1) : NEGATIVE))
  expect(outcomeOf([...samples, ...results(1)], 'us-cdc')?.outcome).toBe('positive')
  // 10 NYCRR Appendix 4-B: 30 % or more (memory)
  expect(outcomeOf([...samples, ...results(2)], 'us-ny-facilities')?.outcome).toBe('negative')
  expect(outcomeOf([...samples, ...results(3)], 'us-ny-facilities')).toMatchObject({
    outcome: 'positive',
    positiveLabels: ['L0', 'L1', 'L2'],
  })
})

test('[FUP14] a round with a planned point neither sampled nor given up is begun; done with what was given up, it says how much', () => {
  const finished = (stop: string, outcome: 'sampled' | 'not possible'): Entry =>
    write.on(date)('stop.finished', {
      round: 'R3',
      stop,
      outcome,
      ...(outcome === 'sampled' ? {} : { reason: 'locked' }),
    })
  const at = (label: string): Entry => write.sample({ date, round: 'R3', label })
  const outcome = (...entries: Entry[]): RoundOutcome | undefined =>
    roundOutcomes(derive('marram-house', [write.planned('R3', ['L1', 'L2', 'L3']), ...entries]))[0]
  const two = [at('L1'), at('L2'), write.result('L1', NEGATIVE), write.result('L2', NEGATIVE)]
  expect(outcome(...two)).toMatchObject({
    outcome: 'begun',
    reason: '1 of 3 points neither sampled nor given up with a reason',
  })
  expect(outcome(...two, write.result('L1', count(2), { method: 'PCR' }))?.outcome).toBe('positive')
  expect(outcome(...two, finished('L3', 'not possible'))).toMatchObject({
    outcome: 'negative',
    reason: 'nothing found in 2 samples; 1 of 3 planned points given up',
  })
  // all collected counts as done although no visit was finished, and the blank is not waited for
  expect(outcome(...two, at('L3'))).toMatchObject({
    outcome: 'pending',
    reason: '1 sample of 3 without a final result',
  })
})
