import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { addDays } from '../calendar/iso-date.ts'
import { runCalculation } from '../catalogue/catalogue.ts'
import { exposureInput } from './exposure-fields.ts'
import { exposureTime } from './exposure-time.ts'

const run = (input: unknown) => exposureTime(exposureInput.parse(input))
const answer = (input: unknown) => runCalculation({ id: 'exposure-time', input })
const DAY = '2026-03-01'
const day = (days: number) => addDays(DAY, days)
const offsets = fc.array(fc.integer({ min: 0, max: 12 }), { minLength: 1, maxLength: 12 })
const model = fc.constantFrom('gamma-a', 'gamma-b', 'gamma-c')
const width = ({ intervalDays: { lower, upper } }: { intervalDays: { lower: number; upper: number } }) => upper - lower
const RUNS = { numRuns: 12 }

test('onsets moved by days move every time by as many, and nothing else', () => {
  fc.assert(
    fc.property(offsets, model, fc.integer({ min: -30_000, max: 30_000 }), (onsets, id, days) => {
      const one = run({ onsets: onsets.map(day), model: id })
      const other = run({ onsets: onsets.map((each) => day(each + days)), model: id })
      expect(other.intervalDays).toEqual(one.intervalDays)
      expect(other.mostLikelyDays).toBe(one.mostLikelyDays)
      expect(other.mostLikelyDay).toBe(addDays(one.mostLikelyDay, days))
      expect(other.days.map(({ share }) => share)).toEqual(one.days.map(({ share }) => share))
    }),
    RUNS,
  )
})

test('the order of onsets and models means nothing', () => {
  fc.assert(
    fc.property(offsets, (onsets) => {
      const one = run({ onsets: onsets.map(day), models: ['gamma-a', 'gamma-b'] })
      const other = run({ onsets: onsets.map(day).toReversed(), models: ['gamma-b', 'gamma-a'] })
      expect(other.mostLikelyDays).toBeCloseTo(one.mostLikelyDays, 6)
      expect(other.intervalDays.lower).toBeCloseTo(one.intervalDays.lower, 6)
      expect(other.models[1]?.weight).toBeCloseTo(one.models[0]?.weight ?? Number.NaN, 8)
    }),
    RUNS,
  )
})

test('the same onsets many times over narrow the interval about the same time, without underflow', () => {
  const once = [0, 1, 2, 2, 3, 4, 5, 8]
  const times = (n: number) => run({ onsets: Array.from({ length: n }, () => once.map(day)).flat() })
  const [one, four, many] = [times(1), times(4), times(250)]
  expect(width(four)).toBeLessThan(width(one))
  expect(width(many)).toBeLessThan(width(four) / 5)
  expect(many.onsets).toBe(2000)
  expect(many.mostLikelyDays).toBeCloseTo(one.mostLikelyDays, 5)
})

test('an onset less exactly known widens the interval; a day is the stretch of its hours; a narrow stretch is a moment', () => {
  const at = (onset: unknown) => run({ onsets: [day(0), day(2), onset] })
  const moment = at(`${day(1)}T12:00`)
  const stretch = at({ from: `${day(1)}T12:00`, to: `${day(1)}T12:01` })
  expect(stretch.mostLikelyDays).toBeCloseTo(moment.mostLikelyDays, 3)
  expect(at({ from: `${day(1)}T00:00`, to: `${day(2)}T00:00` }).intervalDays).toEqual(at(day(1)).intervalDays)
  const wide = at({ from: day(-3), to: day(5) })
  expect(width(wide)).toBeGreaterThan(width(at(day(1))))
})

test('a source that lasts next to no time is one moment; a longer one starts earlier', () => {
  const onsets = [0, 1, 2, 4, 7].map(day)
  const one = run({ onsets })
  const short = run({ onsets, durationDays: 1e-4 })
  expect(short.mostLikelyDays).toBeCloseTo(one.mostLikelyDays - 0.5e-4, 6)
  expect(short.intervalDays.lower).toBeCloseTo(one.intervalDays.lower - 0.5e-4, 6)
  expect(run({ onsets, durationDays: 5e-324 })).toEqual(one)
  expect(run({ onsets, durationDays: 6 }).mostLikelyDays).toBeLessThan(one.mostLikelyDays - 2)
})

test('a wider level holds a narrower one, the top lies within, days add up to one', () => {
  fc.assert(
    fc.property(offsets, model, (onsets, id) => {
      const given = { onsets: onsets.map(day), model: id }
      const [half, most] = [run({ ...given, level: 0.5 }), run({ ...given, level: 0.99 })]
      expect(most.intervalDays.lower).toBeLessThan(half.intervalDays.lower)
      expect(most.intervalDays.upper).toBeGreaterThan(half.intervalDays.upper)
      expect(half.mostLikelyDays).toBeGreaterThan(half.intervalDays.lower)
      expect(half.mostLikelyDays).toBeLessThan(half.intervalDays.upper)
      const sum = half.days.reduce((total, { share }) => total + share, 0)
      expect(sum).toBeGreaterThan(0.998)
      expect(sum).toBeLessThan(1 + 1e-9)
      expect(Math.max(...half.curve.map(({ relativeLikelihood }) => relativeLikelihood))).toBeLessThanOrEqual(1 + 1e-9)
    }),
    RUNS,
  )
})

test('two models alike are one; together the answer lies between the answers of each', () => {
  const onsets = [0, 1, 2, 4, 7].map(day)
  const gamma = { family: 'gamma', shape: 4.96, scaleDays: 1.27 }
  expect(run({ onsets, models: ['gamma-a', gamma] }).mostLikelyDays).toBeCloseTo(run({ onsets }).mostLikelyDays, 6)
  const both = run({ onsets, models: ['gamma-a', 'gamma-b'] })
  const [a, b] = both.models.map(({ mostLikelyDays = Number.NaN }) => mostLikelyDays)
  expect(both.mostLikelyDays).toBeLessThan(a ?? 0)
  expect(both.mostLikelyDays).toBeGreaterThan(b ?? 0)
  expect(both.models.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 12)
})

test('stays hold the time within what they have in common, in one part or several', () => {
  const stays = [
    { from: day(-9), to: day(-8) },
    { from: day(-3), to: day(-3) },
  ]
  const got = run({ onsets: [day(0), { from: day(1), present: stays }], level: 0.999 })
  expect(got.supported).toEqual([
    { from: `${day(-9)}T00:00`, to: `${day(-7)}T00:00` },
    { from: `${day(-3)}T00:00`, to: `${day(-2)}T00:00` },
  ])
  expect(got.chanceOfSpread).toBeUndefined()
})

test('moments with different offsets are the same time; the answer has the local offset', () => {
  const one = run({ onsets: ['2026-03-10T12:00+02:00', '2026-03-12'] })
  const other = run({ onsets: ['2026-03-10T10:00Z', '2026-03-12'], utcOffset: '+02:00' })
  expect(other.mostLikely).toBe(one.mostLikely)
  expect(one.mostLikely).toMatch(/\+02:00$/)
})

test('onsets further apart than one source explains give a time, and say that they do not fit', () => {
  const got = run({ onsets: [day(0), day(1), day(60)] })
  expect(got.fits).toBe('no')
  expect(got.chanceOfSpread).toBeLessThan(1e-6)
  expect(got.mostLikelyDay < day(1)).toBe(true)
  expect(run({ onsets: [day(0), '2199-01-01'] })).toMatchObject({ fits: 'no' })
  expect(run({ onsets: [day(0)] })).toMatchObject({ fits: 'yes', onsets: 1 })
})

test('what no source can explain is refused at the case that leaves no time', () => {
  const present = (from: string, to: string) => [{ from, to }]
  expect(
    answer({
      onsets: [
        day(0),
        { from: day(1), present: present(day(-9), day(-8)) },
        { from: day(2), present: present(day(-5), day(-4)) },
      ],
    }),
  ).toMatchObject({ issues: [{ path: 'onsets.2' }] })
  const byDay = { family: 'by-day', cases: [0, 1, 3, 1] }
  expect(answer({ onsets: [day(0), day(9)], models: [byDay] })).toMatchObject({ issues: [{ path: 'onsets.1' }] })
  const helped = answer({ onsets: [day(0), day(9)], model: 'gamma-a', models: [byDay] })
  expect(helped).toMatchObject({ result: { models: [{ weight: 1 }, { weight: 0 }] } })
  expect(answer({ onsets: [{ from: day(0), present: present(day(3), day(4)) }] })).toMatchObject({
    issues: [{ path: 'onsets.0' }],
  })
  expect(answer({ onsets: [day(0)], between: { from: day(4) } })).toMatchObject({ issues: [{ path: 'onsets.0' }] })
})

test.each([
  ['onsets', { onsets: [] }],
  ['onsets.0.from', { onsets: ['2026-02-30'] }],
  ['onsets.1.to', { onsets: [day(0), { from: day(3), to: day(1) }] }],
  ['onsets.0.present.0.to', { onsets: [{ from: day(3), present: [{ from: day(1), to: day(0) }] }] }],
  ['model', { onsets: [day(0)], model: 'gamma-z' }],
  ['models.0.shape', { onsets: [day(0)], models: [{ family: 'gamma', shape: 0.5, scaleDays: 1 }] }],
  ['models.0.cases', { onsets: [day(0)], models: [{ family: 'by-day', cases: [0, 0] }] }],
  ['durationDays', { onsets: [day(0)], durationDays: 1e9 }],
  ['level', { onsets: [day(0)], level: 1 }],
  ['utcOffset', { onsets: [day(0)], utcOffset: 'noon' }],
])('%s is refused where it cannot be', (path, input) => {
  expect(answer(input)).toMatchObject({ issues: [{ path }] })
})

test('levels next to nothing and next to all, and tails that hardly end, have answers', () => {
  const onsets = [day(0), day(2), day(3)]
  const none = run({ onsets, level: 1e-9 })
  expect(none.intervalDays.lower).toBeCloseTo(none.mostLikelyDays, 4)
  expect(none.intervalDays.upper).toBeCloseTo(none.mostLikelyDays, 4)
  expect(width(run({ onsets, level: 1 - 1e-9 }))).toBeGreaterThan(width(run({ onsets })) * 2)
  const heavy = { family: 'burr', shape: 1, tailShape: 0.1, scaleDays: 900 }
  expect(JSON.stringify(run({ onsets: [day(0)], models: [heavy] }))).not.toMatch(/null|NaN/)
  const sharp = { family: 'gamma', shape: 500, scaleDays: 0.01 }
  expect(run({ onsets: [`${day(9)}T12:00`], models: [sharp] }).mostLikelyDay).toBe(day(4))
})

test('a spread one source does not explain is told of first', () => {
  const first = (...days: string[]) => {
    const worked = runCalculation({ id: 'exposure-time', input: { onsets: days.map((from) => ({ from })) } })
    return 'cautions' in worked ? worked.cautions[0] : ''
  }
  expect(first('2026-03-10', '2026-03-12')).not.toContain('so far apart')
  expect(first('2026-03-10', '2026-03-24')).toMatch(
    /hardly explains onsets so far apart: the chance is 0\.0\d+, below 0\.05/,
  )
  expect(first('2026-03-01', '2026-04-20')).toMatch(/does not explain onsets so far apart: .* below 0\.001/)
})
