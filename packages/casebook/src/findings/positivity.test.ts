import { expect, test } from 'vitest'
import { countInterval } from './count-interval.ts'
import { drawPairs, pairCounts } from './draw-pairs.ts'
import { below, collected, count, labelOf, reported, stateOf } from './findings.fixture.ts'
import { headline } from './headline.ts'
import { positivity, positivityWords } from './positivity.ts'
import { resultLayer } from './result-layer.ts'
import { sampleRows } from './sample-rows.ts'
import { resultWords } from '../units/result-words.ts'

/** riser A: 2 of 3 swabs and 1 of 3 bulks positive; riser B: none of 2, one overgrown; a blank, a duplicate and one still out */
const entries = [
  ...[1, 2, 3].flatMap((floor) => [
    collected(floor, { component: `shower-A${floor}`, sampleKind: 'first-flush-swab' }),
    collected(10 + floor, { component: `shower-A${floor}` }),
    collected(20 + floor, { component: `shower-B${floor}` }),
  ]),
  collected(30, { sampleKind: 'field-blank' }),
  collected(31, { component: 'shower-A1', sampleKind: 'duplicate' }),
  collected(32, { component: 'heater', sampleKind: 'heater-drain' }),
  reported(1, { kind: 'detected' }),
  reported(2, { kind: 'detected' }),
  reported(3, { kind: 'not-detected' }),
  reported(11, count(1200)),
  reported(12, below),
  reported(13, below),
  reported(21, below),
  reported(22, below),
  reported(23, { kind: 'overgrown' }),
  reported(30, below),
  reported(31, count(900)),
]
const rows = sampleRows(stateOf(...entries))

test('[FND2] positives of readable samples by riser, swabs and water apart, blanks and duplicates left out', () => {
  expect(
    positivity(rows, 'riser').map(({ key, medium, positive, total, notInterpretable }) => [
      key,
      medium,
      positive,
      total,
      notInterpretable,
    ]),
  ).toEqual([
    ['A', 'water', 1, 3, 0],
    ['A', 'swab', 2, 3, 0],
    ['B', 'water', 0, 2, 1],
  ])
})

test('[FND2] the interval is Wilson’s, and the words give the counts first', () => {
  // Wilson 1927 score interval, z = 1.959964: computed by hand from (p + z²/2n ± z√(p(1−p)/n + z²/4n²))/(1 + z²/n)
  const z = 1.959964
  const wilson = (x: number, n: number) => {
    const p = x / n
    const half = z * Math.sqrt((p * (1 - p)) / n + (z * z) / (4 * n * n))
    return [(p + (z * z) / (2 * n) - half) / (1 + (z * z) / n), (p + (z * z) / (2 * n) + half) / (1 + (z * z) / n)]
  }
  const [lower = 0, upper = 0] = wilson(1, 3)
  const group = positivity(rows, 'riser')[0]
  expect(group?.interval?.lower).toBeCloseTo(lower, 6)
  expect(group?.interval?.upper).toBeCloseTo(upper, 6)
  expect(positivityWords({ positive: 3, total: 10, interval: { lower: 0.108, upper: 0.603 } })).toBe(
    '3 of 10 (11–60 %)',
  )
})

test('[FND2] samples without a readable result have no share at all', () => {
  const waiting = positivity(rows, 'circuit').find(({ labels }) => labels.includes(labelOf(32)))
  expect(waiting).toMatchObject({ key: 'hot', waiting: 1, total: 5, positive: 1 })
  const [only] = positivity(sampleRows(stateOf(collected(1, { component: 'shower-A1' }))), 'riser')
  expect(only).toMatchObject({ total: 0, estimate: undefined, interval: undefined, waiting: 1 })
})

test('[FND4] first draw and flushed of one outlet and round are a pair, compared by presence only', () => {
  const pairs = drawPairs(rows)
  expect(pairs.map(({ component, pattern }) => [component, pattern])).toEqual([
    ['shower-A1', 'both'],
    ['shower-A2', 'first draw only'],
    ['shower-A3', 'neither'],
  ])
  expect(pairCounts(pairs)).toEqual({ both: 1, 'first draw only': 1, 'flushed only': 0, neither: 1 })
})

test('[FND7] the headline is counted, names no cause and no probability, and says what is still out', () => {
  const told = headline(rows)
  expect(told.title).toBe('Detected in 3 of 8 samples, all on riser A.')
  expect(told.lead).toContain('1 sample is still out.')
  expect(told.facts.map(({ words }) => words)).toEqual([
    '2 of 3 first-flush and swab samples on riser A detected; no other riser has a readable one',
    '1 of 3 water samples on riser A detected; 0 of 2 on the other risers',
    '1 of 2 pairs of samples positive at first draw stay positive after running',
    '1 sample could not be read, which is no negative; 1 to be taken again',
  ])
})

test('[FND7] a building without a detection is not called free of it', () => {
  const told = headline(sampleRows(stateOf(collected(1, { component: 'shower-A1' }), reported(1, below))))
  expect(told.title).toBe('Nothing was detected in 1 sample.')
  expect(told.lead).toContain('never for the whole building')
})

test.each([
  [{ kind: 'not-detected', volumeMl: 1000 }, 'nothing found in 1000 mL by culture'],
  [{ kind: 'not-detected' }, 'nothing found by culture, in a volume the laboratory did not state'],
  [below, 'fewer than 100 CFU/L by culture'],
  [count(12_000), '12 000 CFU/L by culture'],
  [{ kind: 'overgrown' }, 'overgrown: nothing can be said, sample again'],
] as const)('[FND8] a negative speaks of a volume and a method: %o', (value, words) => {
  expect(resultWords(value, { method: 'culture' })).toBe(words)
})

test('[FND9] a count has limits only where the volume examined is known: 10 colonies are 4.80 to 18.39', () => {
  // Garwood 1936 (exact Poisson), 10 events: 4.795 to 18.390, as in published tables (memory)
  const value = { kind: 'count', value: 100, unit: 'CFU/L' } as const
  const interval = countInterval({ value, method: 'culture', volumeExaminedMl: 100 })
  expect(interval?.colonies).toBe(10)
  expect(interval?.lower).toBeCloseTo(47.95, 1)
  expect(interval?.upper).toBeCloseTo(183.9, 1)
  expect(countInterval({ value, method: 'culture' })).toBeUndefined()
  expect(countInterval({ value, method: 'PCR', volumeExaminedMl: 100 })).toBeUndefined()
})

test('[FND10] the diagram shows one mark a place: what presses most, a number for counted water only', () => {
  const marks = new Map(resultLayer(rows).marks.map((mark) => [mark.component, mark]))
  expect(marks.get('shower-A1')).toMatchObject({ form: 'disc', text: '1200' })
  expect(marks.get('shower-A2')).toMatchObject({ form: 'disc' })
  expect(marks.get('shower-A2')?.text).toBeUndefined()
  expect(marks.get('shower-B3')).toMatchObject({ form: 'cross' })
  expect(marks.get('heater')).toMatchObject({ form: 'dashed-ring' })
  expect(marks.get('shower-B1')?.label).toContain('fewer than 100 CFU/L by culture')
})
