import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { drawsByStep } from './draws-by-step.ts'

const draw = fc.record({
  startMinute: fc.double({ min: 0, max: 1439.9, noNaN: true }),
  minutes: fc.double({ min: 0.1, max: 1440, noNaN: true }),
  flowLPerMin: fc.double({ min: 0.1, max: 20, noNaN: true }),
})

test('a day has the litres that are drawn, at any step, past midnight too', () => {
  const given = fc.tuple(fc.array(draw, { maxLength: 20 }), fc.constantFrom(0.5, 1, 5, 15, 60))
  fc.assert(
    fc.property(given, ([draws, stepMinutes]) => {
      const { flowLPerMin, minutes, start } = drawsByStep([{ id: 'tap', coldNode: 0, draws }], stepMinutes)
      const litres = flowLPerMin.reduce((sum, flow) => sum + flow * stepMinutes, 0)
      const wanted = draws.reduce((sum, one) => sum + one.minutes * one.flowLPerMin, 0)
      expect(litres).toBeCloseTo(wanted, 6)
      const ran = minutes.reduce((sum, one) => sum + one, 0)
      expect(ran).toBeCloseTo(
        draws.reduce((sum, one) => sum + one.minutes, 0),
        6,
      )
      expect(start.at(-1)).toBe(flowLPerMin.length)
    }),
  )
})

test('the steps of a draw are those that it touches', () => {
  const draws = [{ startMinute: 1439, minutes: 2, flowLPerMin: 6 }]
  const { start, flowLPerMin } = drawsByStep([{ id: 'tap', coldNode: 0, draws }], 1)
  expect([start[0], start[1], start[1439], start[1440]]).toEqual([0, 1, 1, 2])
  expect([...flowLPerMin]).toEqual([6, 6])
})
