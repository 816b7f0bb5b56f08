import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { type Middle, middleOf } from './middle-value.ts'

const count = (value: number) => ({ value, limit: false })
const under = (value: number) => ({ value, limit: true })

test.each<[string, ReturnType<typeof count>[], Middle | undefined]>([
  ['nothing', [], undefined],
  ['counts alone', [count(3), count(1), count(2)], 2],
  ['an even number of counts', [count(1), count(4)], 2.5],
  ['less than half below one limit', [under(10), count(50), count(20)], 20],
  ['more than half below one limit', [under(10), under(10), count(50)], { below: 10 }],
  ['half below: one of the middle two is known', [under(10), count(50)], { between: [25, 30] }],
  ['a limit above the counts', [under(100), count(10), count(20)], { between: [10, 20] }],
  ['two limits', [under(5), under(50), count(20)], { between: [0, 20] }],
  ['none detected, several limits', [under(5), under(50), under(20)], { below: 20 }],
])('%s', (_, readings, want) => {
  expect(middleOf(readings)).toEqual(want)
})

test('whatever the readings below their limits were, their median lies where it is said to lie', () => {
  const hidden = fc.record({ limit: fc.integer({ min: 1, max: 50 }), share: fc.integer({ min: 0, max: 99 }) })
  const reading = fc.oneof(fc.integer({ min: 0, max: 60 }), hidden)
  fc.assert(
    fc.property(fc.array(reading, { minLength: 1, maxLength: 12 }), (readings) => {
      const told = middleOf(readings.map((one) => (typeof one === 'number' ? count(one) : under(one.limit))))
      const truth = readings.map((one) => (typeof one === 'number' ? one : (one.limit * one.share) / 100))
      const middle = middleOf(truth.map(count))
      expect(typeof middle === 'number' && lies(middle, told)).toBe(true)
    }),
  )
})

function lies(middle: number, told: Middle | undefined): boolean {
  if (told === undefined || typeof told === 'number') return middle === told
  return 'below' in told ? middle < told.below : told.between[0] <= middle && middle <= told.between[1]
}
