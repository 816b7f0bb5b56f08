import { expect, test } from 'vitest'
import { type DayPatternId, dayPattern, dayPatternOf, minuteOfShare } from './day-pattern.ts'

const IDS: DayPatternId[] = ['kitchen', 'sink', 'shower', 'even']

test.each(IDS)('the shares before each hour of %s rise from 0 to 1', (id) => {
  const { usedBefore } = dayPattern(id)
  expect(usedBefore).toHaveLength(25)
  expect(usedBefore[0]).toBe(0)
  expect(usedBefore[24]).toBe(1)
  expect(usedBefore.every((before, hour) => hour === 0 || before >= (usedBefore[hour - 1] ?? 0))).toBe(true)
})

test.each(IDS)('an hour without use is never met in %s', (id) => {
  const { usedBefore } = dayPattern(id)
  const MANY = 50_000
  for (let at = 1; at < MANY; at++) {
    const hour = Math.floor(minuteOfShare({ usedBefore }, at / MANY) / 60)
    expect((usedBefore[hour + 1] ?? 1) > (usedBefore[hour] ?? 0)).toBe(true)
  }
})

test('every kind has a profile, a kind unheard of that of sinks', () => {
  expect(['shower', 'bath', 'kitchen-tap', 'basin-tap', 'cooling-tower', 'unheard-of'].map(dayPatternOf)).toEqual([
    'shower',
    'shower',
    'kitchen',
    'sink',
    'even',
    'sink',
  ])
})
