import { expect, test } from 'vitest'
import * as z from 'zod'
import { draftOf, groupDraft, valueOf } from './draft.ts'
import { fieldsOf } from './field-spec.ts'

const schema = z.strictObject({
  code: z.string().min(1),
  onsetDate: z.iso.date().optional(),
  kind: z.enum(['shower', 'tap']).default('tap'),
  flowLPerMin: z.number().min(0.1).max(100).meta({ unit: 'L/min', description: 'flow (L/min)' }),
  sealed: z.boolean(),
  rows: z.array(z.strictObject({ boreMm: z.number(), lengthM: z.number().optional() })).min(1),
  by: z.strictObject({ name: z.string() }).optional(),
  value: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('a') }),
    z.strictObject({ kind: z.literal('b'), n: z.number() }),
  ]),
})
const fields = fieldsOf(schema)
const spec = { kind: 'group', fields } as const
const value = {
  code: 'MH-01',
  kind: 'shower',
  flowLPerMin: 6.5,
  sealed: true,
  rows: [{ boreMm: 13.6 }, { boreMm: 20, lengthM: 3 }],
  value: { kind: 'b', n: 2 },
}

test('a schema becomes fields with labels, units, presets and limits', () => {
  expect(fields.map(({ label, spec: { kind } }) => [label, kind])).toEqual([
    ['Code', 'text'],
    ['Onset date', 'date'],
    ['Kind', 'choice'],
    ['Flow L per min', 'number'],
    ['Sealed', 'flag'],
    ['Rows', 'list'],
    ['By', 'group'],
    ['Value', 'json'],
  ])
  expect(fields[3]).toMatchObject({ unit: 'L/min', needed: true, spec: { min: 0.1, max: 100 } })
})

test('a value goes into the form and comes out the same', () => {
  expect(valueOf(spec, draftOf(spec, value))).toEqual(value)
  expect(schema.safeParse(valueOf(spec, draftOf(spec, value))).success).toBe(true)
})

test('typed text is never lost: what is no number reaches the schema as it was typed', () => {
  const draft = { ...groupDraft(fields, value), flowLPerMin: 'six', value: '{"kind":' }
  expect(valueOf(spec, draft)).toMatchObject({ flowLPerMin: 'six', value: '{"kind":' })
  expect(valueOf(spec, { ...draft, flowLPerMin: '6,5' })).toMatchObject({ flowLPerMin: 6.5 })
})

test('an empty form leaves everything out but flags, needed rows and presets', () => {
  expect(valueOf(spec, groupDraft(fields, undefined))).toEqual({ kind: 'tap', sealed: false, rows: [{}] })
})
