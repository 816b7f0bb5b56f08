import { expect, test } from 'vitest'
import * as z from 'zod'
import { parseWith } from './from-zod.ts'
import { issue, issueLine } from './issue.ts'

const schema = z.strictObject({
  doses: z.array(
    z.discriminatedUnion('kind', [z.strictObject({ kind: z.literal('litres'), litres: z.number().positive() })]),
  ),
})

test.each([
  [{ doses: [{ kind: 'litres', litres: 0 }] }, 'doses.0.litres: expected more than 0, received 0'],
  [{ doses: [{ kind: 'litres', litres: '1' }] }, 'doses.0.litres: expected number, received "1"'],
  [{ doses: [{ kind: 'litres', litres: Number.NaN }] }, 'doses.0.litres: expected number, received null'],
  [{ doses: 'all' }, 'doses: expected array, received "all"'],
  [{ doses: [], more: 1, most: 2 }, 'input: expected only known fields, received "more, most"'],
  [undefined, 'input: expected object, received nothing'],
])('%j reads: %s', (input, line) => {
  const parsed = parseWith(schema, input)
  expect(parsed.ok ? [] : parsed.issues.map(issueLine)).toEqual([line])
})

test('what was received is shortened to one line', () => {
  const { received } = issue('x', { expected: 'y', received: 'a\n'.repeat(500) })
  expect(received.length).toBeLessThan(90)
  expect(received).not.toContain('\n')
})
