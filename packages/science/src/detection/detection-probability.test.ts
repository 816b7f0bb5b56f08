import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { detectionProbability } from './detection-probability.ts'
import { outletsToSample } from './outlets-to-sample.ts'
import { upperBoundAfterNegatives } from './upper-bound-after-negatives.ts'

const sensitivity = fc.double({ min: 0.01, max: 1, noNaN: true })
const designs = fc.integer({ min: 1, max: 60 }).chain((outlets) =>
  fc.record({
    outlets: fc.constant(outlets),
    colonised: fc.nat({ max: outlets }),
    sampled: fc.nat({ max: outlets }),
    sensitivity,
  }),
)

test('agrees with drawing outlet after outlet', () => {
  fc.assert(
    fc.property(designs, (design) => {
      expect(detectionProbability(design)).toBeCloseTo(1 - missedDrawByDraw(design), 10)
    }),
  )
})

test('what is sampled and what is colonised may change places', () => {
  fc.assert(
    fc.property(designs, ({ colonised, sampled, ...rest }) => {
      expect(detectionProbability({ ...rest, colonised, sampled })).toBeCloseTo(
        detectionProbability({ ...rest, colonised: sampled, sampled: colonised }),
        12,
      )
    }),
  )
})

test('never falls with another sample', () => {
  fc.assert(
    fc.property(designs, (design) => {
      fc.pre(design.sampled < design.outlets)
      const more = detectionProbability({ ...design, sampled: design.sampled + 1 })
      expect(more).toBeGreaterThanOrEqual(detectionProbability(design) - 1e-12)
    }),
  )
})

test('a million outlets come close to very many, in bounded time', () => {
  const design = { designPrevalence: 0.02, sensitivity: 0.8, confidence: 0.95 }
  expect(outletsToSample({ ...design, outlets: 1_000_000 })).toBe(outletsToSample(design))
})

test('the sample reaches the confidence and one fewer does not', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 300 }),
      fc.double({ min: 0.01, max: 0.9, noNaN: true }),
      (outlets, designPrevalence) => {
        const sample = outletsToSample({ outlets, designPrevalence, sensitivity: 1, confidence: 0.95 })
        const colonised = Math.max(1, Math.round(outlets * designPrevalence))
        fc.pre(Math.abs((outlets * designPrevalence) % 1) !== 0.5)
        const at = (sampled: number) => detectionProbability({ outlets, colonised, sampled, sensitivity: 1 })
        expect(at(sample)).toBeGreaterThanOrEqual(0.95 - 1e-11)
        expect(at(sample - 1)).toBeLessThan(0.95)
      },
    ),
  )
})

test('a confidence that no sample reaches is refused', () => {
  expect(() => outletsToSample({ outlets: 20, designPrevalence: 0.01, sensitivity: 0.9, confidence: 0.95 })).toThrow(
    RangeError,
  )
})

test('no more could hide than the bound says, and that many could', () => {
  fc.assert(
    fc.property(designs, ({ outlets, sampled, sensitivity }) => {
      const { upperNumber = -1 } = upperBoundAfterNegatives({ outlets, sampled, sensitivity, level: 0.95 })
      const at = (colonised: number) => detectionProbability({ outlets, colonised, sampled, sensitivity })
      expect(at(upperNumber)).toBeLessThanOrEqual(0.95 + 1e-11)
      expect(upperNumber === outlets || at(upperNumber + 1) > 0.95).toBe(true)
    }),
  )
})

test('samples enough for a share, all negative, leave fewer than that share; one sample fewer does not', () => {
  fc.assert(
    fc.property(
      fc
        .integer({ min: 2, max: 200 })
        .chain((outlets) =>
          fc.record({ outlets: fc.constant(outlets), colonised: fc.integer({ min: 1, max: outlets }) }),
        ),
      fc.constantFrom(0.8, 0.95, 0.99),
      ({ outlets, colonised }, level) => {
        const sampled = outletsToSample({
          outlets,
          designPrevalence: colonised / outlets,
          sensitivity: 1,
          confidence: level,
        })
        const hidden = (given: number) =>
          upperBoundAfterNegatives({ outlets, sampled: given, sensitivity: 1, level }).upperNumber ?? outlets
        // A chance equal to the level is enough for the sample, and just not refuted for the bound.
        const equal = Math.abs(detectionProbability({ outlets, colonised, sampled, sensitivity: 1 }) - level) < 1e-11
        expect(hidden(sampled)).toBeLessThan(colonised + Number(equal))
        expect(hidden(sampled - 1)).toBeGreaterThanOrEqual(colonised)
      },
    ),
  )
})

test('of very many outlets the bound is the share for which that sample was the least', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 2000 }), fc.constantFrom(0.5, 0.9, 1), (sampled, sensitivity) => {
      const { upperFraction } = upperBoundAfterNegatives({ sampled, sensitivity, level: 0.95 })
      fc.pre(upperFraction < 1)
      const least = (factor: number) =>
        outletsToSample({ designPrevalence: Math.min(1, upperFraction * factor), sensitivity, confidence: 0.95 })
      expect(least(1 + 1e-6)).toBe(sampled)
      expect(least(1 - 1e-6)).toBe(sampled + 1)
    }),
  )
})

test('nothing sampled bounds nothing; everything sampled without a miss leaves nothing', () => {
  expect(upperBoundAfterNegatives({ sampled: 0, sensitivity: 0.5, level: 0.95 }).upperFraction).toBe(1)
  expect(upperBoundAfterNegatives({ outlets: 9, sampled: 0, sensitivity: 1, level: 0.95 }).upperNumber).toBe(9)
  expect(upperBoundAfterNegatives({ outlets: 9, sampled: 9, sensitivity: 1, level: 0.95 }).upperNumber).toBe(0)
})

test('more colonised or sampled than outlets is refused', () => {
  expect(() => detectionProbability({ outlets: 3, colonised: 4, sampled: 1, sensitivity: 1 })).toThrow(RangeError)
})

/** Slow and obvious: the chance of no positive, one outlet at a time without putting back. */
function missedDrawByDraw({
  outlets,
  colonised,
  sampled,
  sensitivity,
}: Parameters<typeof detectionProbability>[0]): number {
  // chances[k]: k colonised drawn so far, none found.
  let chances = [1]
  for (let drawn = 0; drawn < sampled; drawn++) {
    const left = outlets - drawn
    const next = Array.from({ length: chances.length + 1 }, () => 0)
    for (const [k, chance] of chances.entries()) {
      const hit = (colonised - k) / left
      next[k] = (next[k] ?? 0) + chance * (1 - hit)
      next[k + 1] = (next[k + 1] ?? 0) + chance * hit * (1 - sensitivity)
    }
    chances = next
  }
  return chances.reduce((sum, chance) => sum + chance, 0)
}
