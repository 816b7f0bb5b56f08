import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import * as z from 'zod'
import { calculations, findCalculation, runCalculation } from './catalogue.ts'
import { fieldRows } from './field-rows.ts'

const each = calculations.map((calculation) => ({ id: calculation.id, calculation }))

test('ids are unique and written with hyphens', () => {
  const ids = calculations.map(({ id }) => id)
  expect(new Set(ids).size).toBe(ids.length)
  expect(ids.filter((id) => !/^[a-z]+(-[a-z]+)*$/.test(id))).toEqual([])
})

test.each(each)('$id: its worked example is what it answers', ({ calculation }) => {
  const { id, example } = calculation
  const answer = runCalculation({ id, input: example.input })
  if ('issues' in answer) throw new Error(JSON.stringify(answer.issues))
  expect(rounded(answer.result)).toEqual(rounded(example.output))
  expect(answer).toMatchObject({ sources: calculation.sources, cautions: expect.arrayContaining(calculation.cautions) })
})

test.each(each)('$id: every field is described, and one whose name ends in a unit has that unit', ({ calculation }) => {
  const rows = [...fieldRows(calculation.input), ...fieldRows(calculation.output)]
  const limits = /\.(lower|upper|exposed|unexposed|from|to)$/
  expect(rows.filter(({ path, description }) => description === '' && !limits.test(path))).toEqual([])
  const measured = rows.filter(({ path }) => /(MgPerL|Ml|Mm|[a-z]M|LPerMin|VolumeL|Kilograms|[a-z]C)$/.test(path))
  expect(measured.filter(({ description }) => !description.includes('('))).toEqual([])
})

test.each(each)('$id: says where it comes from, what to beware of and how it is reckoned', ({ calculation }) => {
  expect(calculation.sources.length).toBeGreaterThan(0)
  expect(calculation.cautions.length).toBeGreaterThan(0)
  expect(
    Object.keys(calculation.formula.symbols).filter((symbol) => !calculation.formula.text.includes(symbol)),
  ).toEqual([])
})

test.each(each)('$id: its schemas become JSON Schema objects', ({ calculation }) => {
  expect(z.toJSONSchema(calculation.input, { io: 'input' }).type).toBe('object')
  expect(z.toJSONSchema(calculation.output).type).toBe('object')
})

test.each(each)(
  '$id: whatever its fields are given, it refuses with the field or answers in finite numbers',
  ({ calculation }) => {
    const names = Object.keys(calculation.input.shape)
    const value = fc.oneof(
      fc.constantFrom(0, 1, -1, 1e-9, 1e12, 1e308, 5e-324, 0.5, null, '', 'x', [], {}),
      fc.double(),
      fc.nat({ max: 1000 }),
    )
    const input = fc.record(Object.fromEntries(names.map((name) => [name, value])), { requiredKeys: [] })
    const merged = input.map((odd) => ({ ...Object(calculation.example.input), ...odd }))
    fc.assert(
      fc.property(fc.oneof(merged, fc.anything()), (given) => {
        const answer = runCalculation({ id: calculation.id, input: given })
        expect('issues' in answer ? answer.issues.length > 0 : oddNumbers(answer.result).length === 0).toBe(true)
      }),
      { numRuns: 150 },
    )
  },
)

test.each(each.filter(({ calculation }) => calculation.costMs !== undefined))(
  '$id: tells how long a run takes as a plain number, whatever it is given',
  ({ calculation }) => {
    const names = Object.keys(calculation.input.shape)
    const input = fc.record(Object.fromEntries(names.map((name) => [name, fc.anything()])), { requiredKeys: [] })
    fc.assert(
      fc.property(fc.oneof(input, fc.anything()), (given) => {
        const ms = calculation.costMs?.(given)
        expect(Number.isFinite(ms) && Number(ms) >= 0).toBe(true)
      }),
    )
  },
)

test('every problem of an input is told at once, with what was expected and received', () => {
  expect(runCalculation({ id: 'proportion', input: { positive: 'three', totl: 10, level: 2 } })).toEqual({
    issues: [
      { path: 'positive', expected: 'a number', received: '"three"' },
      { path: 'total', expected: 'a number', received: 'nothing' },
      { path: 'level', expected: 'at most 0.999999999', received: '2' },
      { path: 'totl', expected: 'no field of this name', received: '10' },
    ],
  })
})

test('a rule between fields names the field to change', () => {
  const input = {
    waterVolumeL: 10,
    targetMgPerL: 50,
    product: { kind: 'sodium-hypochlorite', availableChlorinePercent: 10 },
  }
  expect(runCalculation({ id: 'shock-dose', input })).toMatchObject({
    issues: [{ path: 'product.densityKgPerL', received: 'nothing' }],
  })
  expect(runCalculation({ id: 'proportion', input: { positive: 11, total: 10 } })).toEqual({
    issues: [{ path: 'positive', expected: 'at most the total, 10', received: '11' }],
  })
})

test('a pipe may be named by bore or by standard and size, and the sizes there are get listed', () => {
  const refused = (input: object) => runCalculation({ id: 'pipe-volume', input: { lengthM: 1, ...input } })
  expect(refused({})).toMatchObject({ issues: [{ path: 'boreMm', expected: 'boreMm, or standard and size' }] })
  expect(refused({ boreMm: 1, size: '1/2' })).toMatchObject({ issues: [{ path: 'boreMm' }] })
  expect(refused({ size: '1/2' })).toMatchObject({ issues: [{ path: 'standard' }] })
  expect(refused({ standard: 'pex-sdr9', size: '9' })).toMatchObject({
    issues: [{ path: 'size', expected: 'one of 3/8, 1/2, 5/8, 3/4, 1', received: '"9"' }],
  })
})

test('help names the fields of each of several shapes', () => {
  const input = findCalculation('shower-risk')?.input ?? z.object({})
  const rows = fieldRows(input).filter(({ path }) => path.startsWith('distribution'))
  expect(rows.map(({ path }) => path)).toEqual([
    'distribution',
    'distribution(lognormal).medianCfuPerL',
    'distribution(lognormal).geometricSd',
    'distribution(lognormal).spread',
    'distribution(gamma).shape',
    'distribution(gamma).rateLPerCfu',
    'distribution(gamma).spread',
    'distribution(counts).colonies',
    'distribution(counts).examinedMl',
    'distribution(below).below',
  ])
  expect(rows[0]?.kind).toBe('object of kind lognormal, gamma, counts, below')
})

test('an unknown calculation is refused with the ones there are', () => {
  expect(runCalculation({ id: 'toString', input: {} })).toMatchObject({
    issues: [{ path: 'id', received: '"toString"' }],
  })
  expect(findCalculation('nothing')).toBeUndefined()
})

/** Ten digits are what the arithmetic of different orders agrees on. */
function rounded(value: unknown): unknown {
  return JSON.parse(
    JSON.stringify(value, (_, each: unknown) => (typeof each === 'number' ? Number(each.toPrecision(10)) : each)),
  )
}

function oddNumbers(value: unknown): unknown[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [value]
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(oddNumbers) : []
}
