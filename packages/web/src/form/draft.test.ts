import { KINDS } from '@rillmark/casebook/entry/kinds.ts'
import { expect, test } from 'vitest'
import * as z from 'zod'
import { draftOf, groupDraft, valueOf, withShape } from './draft.ts'
import { fieldsOf } from './field-spec.ts'
import { choiceWords, fieldWords, rowWord } from './field-words.ts'

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
    ['Flow', 'number'],
    ['Sealed', 'flag'],
    ['Rows', 'list'],
    ['By', 'group'],
    ['Value', 'variant'],
  ])
  expect(fields[3]).toMatchObject({ unit: 'L/min', needed: true, spec: { min: 0.1, max: 100 } })
})

test('a value goes into the form and comes out the same', () => {
  expect(valueOf(spec, draftOf(spec, value))).toEqual(value)
  expect(schema.safeParse(valueOf(spec, draftOf(spec, value))).success).toBe(true)
})

test('typed text is never lost: what is no number reaches the schema as it was typed', () => {
  const draft = { ...groupDraft(fields, value), flowLPerMin: 'six' }
  expect(valueOf(spec, draft)).toMatchObject({ flowLPerMin: 'six' })
  expect(valueOf(spec, { ...draft, flowLPerMin: '6,5' })).toMatchObject({ flowLPerMin: 6.5 })
})

test('an empty form leaves everything out but flags, needed rows and presets', () => {
  expect(valueOf(spec, groupDraft(fields, undefined))).toEqual({ kind: 'tap', sealed: false, rows: [{}] })
})

test('a group nobody has to fill in is left out where only its needed rows have room, and stays once a row is filled', () => {
  const logged = { kind: 'group', fields: fieldsOf(KINDS['temperature.logged'].body) } as const
  const body = { consignment: 'Box 1', temperatureC: 6.4 }
  expect(valueOf(logged, groupDraft(logged.fields, body))).toEqual(body)
  const series = { startedAt: '2026-03-02T09:00:00.000Z', seconds: [0, 60], temperatureC: [5, 5.5] }
  expect(valueOf(logged, groupDraft(logged.fields, { ...body, series }))).toMatchObject({ series })
})

test('a shape chosen by its kind keeps what was typed for another shape, but only the chosen one counts', () => {
  const draft = { ...groupDraft(fields, value), value: { kind: 'a', n: '2' } }
  expect(valueOf(spec, draft)).toMatchObject({ value: { kind: 'a' } })
  expect(valueOf(spec, draft)).not.toHaveProperty('value.n')
  expect(valueOf(spec, { ...draft, value: { kind: 'b', n: '2' } })).toMatchObject({ value: { kind: 'b', n: 2 } })
})

test('every kind of entry has a form whose draft gives back the body it was made of', () => {
  const target = { quantity: 'temperature', value: 70, unit: '°C', minutes: 5 }
  const body = { measure: 'flush', stage: 'immediate', where: 'riser C', components: ['a', 'b'], owner: 'Dune', target }
  const schemaFields = fieldsOf(KINDS['measure.ordered'].body)
  const back = valueOf({ kind: 'group', fields: schemaFields }, groupDraft(schemaFields, body))
  expect(back).toEqual(body)
  for (const { body: each } of Object.values(KINDS)) expect(() => fieldsOf(each)).not.toThrow()
})

test.each([
  ['flowLPerMin', { description: 'flow at the outlet (L/min)', unit: 'L/min' }, ['Flow at the outlet', '', 'L/min']],
  [
    'boreMm',
    { description: 'inside diameter; or give a size (mm)', unit: 'mm' },
    ['Inside diameter', 'Or give a size', 'mm'],
  ],
  ['temperatureC', {}, ['Temperature', '', '°C']],
  ['volumeExaminedMl', {}, ['Volume examined', '', 'mL']],
  ['factor', { description: 'mL of the sample in 1 mL: filtered' }, ['mL of the sample in 1 mL', 'Filtered', '']],
  ['pH', {}, ['pH', '', '']],
  ['sha256', {}, ['Sha256', '', '']],
] as const)('%s with %j is called %j', (name, told, [label, hint, unit]) => {
  expect(fieldWords(name, told)).toEqual({ label, hint, unit })
})

test('a shape newly chosen shows what is preset in it, and what was typed stays', () => {
  const shapes = z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('a'), n: z.number(), spread: z.enum(['wide', 'narrow']).default('wide') }),
    z.strictObject({ kind: z.literal('b'), n: z.number() }),
  ])
  const spec = fieldsOf(z.strictObject({ shapes }))[0]?.spec
  if (spec?.kind !== 'variant') throw new TypeError('the test needs a variant')
  expect(withShape(spec, { draft: { kind: '', spread: '' }, id: 'a' })).toEqual({ kind: 'a', n: '', spread: 'wide' })
  const typed = { kind: 'b', n: '7', spread: 'narrow' }
  expect(withShape(spec, { draft: typed, id: 'a' })).toEqual({ kind: 'a', n: '7', spread: 'narrow' })
})

test('values of choices and rows of lists read as words', () => {
  expect(['free-chlorine', '2-10', 'astm-b88-type-k'].map(choiceWords)).toEqual([
    'free chlorine',
    '2-10',
    'astm-b88-type-k',
  ])
  expect(['plates', 'segments', 'evidence'].map(rowWord)).toEqual(['Plate', 'Segment', 'Evidence'])
})
