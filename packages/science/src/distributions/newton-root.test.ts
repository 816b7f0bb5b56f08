import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { newtonRoot } from './newton-root.ts'

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true })

/** From here it takes about 200 steps down an exponential; they once ran out. */
const FAR_UP = { root: -23.896456779380326, start: 59.99999999999994, flat: 0.01, bend: 2.3022665040920263 }

test('finds a root from anywhere, where the function bends little over a step', () => {
  const search = { root: between(-50, 50), start: between(-60, 60), flat: between(0.01, 1), bend: between(0.1, 3) }
  fc.assert(
    fc.property(fc.record(search), ({ root, start, flat, bend }) => {
      const rising = (x: number) => {
        const value = Math.expm1(Math.min(500, bend * (x - root)))
        return { value, slope: bend * (value + 1) }
      }
      const found = newtonRoot({ rising, start, step: flat / bend })
      expect(Math.abs(found - root)).toBeLessThan(1e-12 * Math.max(1, Math.abs(root)))
    }),
    { examples: [[FAR_UP]] },
  )
})

test('ends where there is no root and no slope, or nothing but −∞', () => {
  expect(newtonRoot({ rising: () => ({ value: -1, slope: 0 }), start: 0, step: 1 })).toBeGreaterThan(600)
  const dead = { value: Number.NEGATIVE_INFINITY, slope: Number.NaN }
  expect(newtonRoot({ rising: () => dead, start: 0, step: 1 })).toBeGreaterThan(600)
})
