import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { agreements } from './agreements.ts'
import type { ClassedLocus } from './bit-planes.ts'

/** One locus: so many profiles, a share of them without a class, another in class 0, the rest spread over so many classes. */
const loci = fc.tuple(fc.integer({ min: 1, max: 150 }), fc.integer({ min: 1, max: 120 })).chain(([profiles, count]) =>
  fc.record({
    profiles: fc.constant(profiles),
    loci: fc.array(
      fc
        .record({
          none: fc.constantFrom(0, 0.02, 0.5, 1),
          first: fc.constantFrom(0, 0.3, 0.9, 1),
          classes: fc.constantFrom(1, 2, 3, 5, 17, 150),
          chances: fc.array(fc.double({ min: 0, max: 0.999, noNaN: true }), {
            minLength: 3 * profiles,
            maxLength: 3 * profiles,
          }),
        })
        .map(({ none, first, classes, chances }): ClassedLocus => {
          const [at, of] = [(i: number) => chances[i] ?? 0, profiles]
          const number = (i: number) => (at(of + i) < first ? 0 : Math.floor(at(2 * of + i) * classes))
          return { classOf: Int32Array.from({ length: of }, (_, i) => (at(i) < none ? -1 : number(i))), classes }
        }),
      { minLength: count, maxLength: count },
    ),
  }),
)

test('common classes by their bits and rare ones by their members together count what a plain comparison counts', () => {
  fc.assert(
    fc.property(loci, ({ profiles, loci: given }) => {
      const count = agreements(given, profiles)
      for (let top = 0; top < profiles; top += 7) {
        const bottom = Math.min(top + 7, profiles)
        const counts = new Uint16Array(7 * profiles).fill(9)
        count({ top, bottom, profiles, counts })
        const pairs = Array.from({ length: bottom - top }, (_, row) => top + row).flatMap((a) =>
          Array.from({ length: profiles - a - 1 }, (_, later) => ({ a, b: a + 1 + later })),
        )
        const agreeing = ({ a, b }: { a: number; b: number }) =>
          given.filter(({ classOf }) => classOf[a] !== -1 && classOf[a] === classOf[b]).length
        expect(pairs.map(({ a, b }) => counts[(a - top) * profiles + b])).toEqual(pairs.map(agreeing))
      }
    }),
    { numRuns: 20 },
  )
})
