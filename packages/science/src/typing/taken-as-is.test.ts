import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import * as z from 'zod'
import { runCalculation } from '../catalogue/catalogue.ts'
import { alleleDistanceCalculation } from './allele-distance.ts'
import { everyElement, takenAsIs } from './taken-as-is.ts'

test('a plain list comes through as the very same list, and says in JSON Schema what it said before', () => {
  const schema = z.object({ list: takenAsIs(z.array(z.number()), (list) => everyElement(list, Number.isFinite)) })
  const list = [1, 2.5, -3]
  expect(schema.parse({ list }).list).toBe(list)
  expect(z.toJSONSchema(schema)).toEqual(z.toJSONSchema(z.object({ list: z.array(z.number()) })))
})

const cell = fc.oneof(
  { weight: 8, arbitrary: fc.constantFrom(1, 7, -2.5, '7', 'new', '', null) },
  fc.constantFrom(Number.NaN, Number.POSITIVE_INFINITY, undefined, true, {}, [], 'x'.repeat(101), 7n),
)
const allele = z.union([z.number(), z.string().max(100), z.null()])
const plain = z.strictObject({
  profiles: z.array(z.strictObject({ id: z.string(), alleles: z.array(allele).min(1).max(10_000) })),
})

test('every other list is refused as the schema alone refuses it, with the same path', () => {
  fc.assert(
    fc.property(fc.oneof(fc.array(cell, { maxLength: 6 }), fc.anything()), (alleles) => {
      const input = { profiles: [{ id: 'a', alleles }] }
      const [got, want] = [alleleDistanceCalculation.input.safeParse(input), plain.safeParse(input)]
      const told = ({ error }: typeof got | typeof want) =>
        error?.issues.map(({ code, path, message }) => ({ code, path, message }))
      expect(told(got)).toEqual(told(want))
    }),
    { numRuns: 500 },
  )
})

test('a hole in a list is no number', () => {
  expect(everyElement(Array.from({ length: 2 }), Number.isFinite)).toBe(false)
  const alleles: number[] = []
  alleles[0] = 1
  alleles[2] = 3
  expect(runCalculation({ id: 'allele-distance', input: { profiles: [{ id: 'a', alleles }] } })).toMatchObject({
    issues: [{ path: 'profiles.0.alleles.1' }],
  })
})
