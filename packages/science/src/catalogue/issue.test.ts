import { expect, test } from 'vitest'
import * as z from 'zod'
import { parseWith } from './from-zod.ts'
import { describeReceived, issue, issueLine } from './issue.ts'

const schema = z.strictObject({
  doses: z.array(
    z.discriminatedUnion('kind', [z.strictObject({ kind: z.literal('litres'), litres: z.number().positive() })]),
  ),
})

test.each([
  [{ doses: [{ kind: 'litres', litres: 0 }] }, 'doses.0.litres: expected more than 0, received 0'],
  [{ doses: [{ kind: 'litres', litres: '1' }] }, 'doses.0.litres: expected a number, received "1"'],
  [{ doses: [{ kind: 'litres', litres: Number.NaN }] }, 'doses.0.litres: expected a number, received NaN'],
  [{ doses: 'all' }, 'doses: expected a list, received "all"'],
  [
    { doses: [], more: 1, most: 'x' },
    'more: expected no field of this name, received 1; most: expected no field of this name, received "x"',
  ],
  [undefined, 'input: expected an object, received nothing'],
])('%j reads: %s', (input, line) => {
  const parsed = parseWith(schema, input)
  expect(parsed.ok ? '' : parsed.issues.map(issueLine).join('; ')).toBe(line)
})

test('what was received is shortened to one line', () => {
  const { received } = issue('x', { expected: 'y', received: 'a\n'.repeat(500) })
  expect(received.length).toBeLessThan(90)
  expect(received).not.toContain('\n')
})

test.each([
  ['half a million brackets', nested(500_000)],
  ['ten million characters', 'x'.repeat(10_000_000)],
  ['a list of a million', Array.from({ length: 1_000_000 }, () => 1)],
  ['a whole number beyond numbers', 10n ** 400n],
  ['a list that holds itself', holdingItself()],
])('however large the value, it is told at once in one short phrase: %s', (_, value) => {
  expect(describeReceived(value).length).toBeLessThan(90)
})

function nested(levels: number): unknown {
  let value: unknown = 1
  for (let level = 0; level < levels; level += 1) value = [value]
  return value
}

function holdingItself(): unknown[] {
  const list: unknown[] = []
  list.push(list)
  return list
}
