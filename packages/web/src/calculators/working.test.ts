import { type DisplayUnits, METRIC_UNITS, US_UNITS } from '@rillmark/casebook/units/display-units.ts'
import { calculations } from '@rillmark/science/catalogue/catalogue.ts'
import { describe, expect, test } from 'vitest'
import { groupDraft } from '../form/draft.ts'
import { fieldsOf } from '../form/field-spec.ts'
import { givenBy, runOf } from './calculation-run.ts'
import { readableResult, valueWords } from './result-rows.ts'
import { bySubject } from './subjects.ts'
import { symbolRows, workingText } from './working.ts'

const units: DisplayUnits = { ...METRIC_UNITS, count: 'per L' }
const find = (id: string) => {
  const found = calculations.find((each) => each.id === id)
  if (found === undefined) throw new RangeError(`Cannot test a calculation because there is none of the id: got ${id}`)
  return found
}
const workedExample = (id: string) => {
  const calculation = find(id)
  const fields = fieldsOf(calculation.input)
  const run = runOf(calculation, { given: givenBy(fields, groupDraft(fields, calculation.example.input)) })
  if (run.kind !== 'worked') throw new RangeError(`Cannot work the example: got ${JSON.stringify(run)}`)
  return { calculation, worked: run.worked }
}

describe.each(calculations.map(({ id }) => id))('%s', (id) => {
  test('its example goes through the form and gives what the descriptor says', () => {
    const { calculation, worked } = workedExample(id)
    const given = calculation.output.parse(calculation.example.output)
    const close = (value: unknown): unknown =>
      JSON.parse(JSON.stringify(value), (_, each: unknown) =>
        typeof each === 'number' ? Number(each.toPrecision(9)) : each,
      )
    expect(close(worked.result)).toEqual(close(given))
  })

  test('its working in words holds every figure of the result and says how each source is known', () => {
    const { calculation, worked } = workedExample(id)
    const text = workingText(calculation, { worked, units })
    const { rows } = readableResult({ fields: fieldsOf(calculation.output), values: worked.result, units })
    for (const { label, words } of rows) expect(text).toContain(`${label}: ${words}`)
    for (const { citation } of calculation.sources) expect(text).toContain(citation)
    for (const caution of calculation.cautions) expect(text).toContain(caution)
    expect(text).not.toMatch(/undefined|NaN|\[object|e-\d/)
  })

  test('an empty form asks for what is missing and calls nothing wrong', () => {
    const calculation = find(id)
    const fields = fieldsOf(calculation.input)
    const run = runOf(calculation, { given: givenBy(fields, groupDraft(fields, undefined)) })
    expect(run.kind === 'open' ? run.wrong : 'worked').toEqual([])
  })
})

test('the list holds every calculation once, and search narrows it by title, purpose and subject', () => {
  const all = bySubject(calculations, '').flatMap((group) => group.calculations.map(({ id }) => id))
  expect(all.toSorted()).toEqual(calculations.map(({ id }) => id).toSorted())
  expect(
    bySubject(calculations, 'hypochlorite volume').flatMap((group) => group.calculations.map(({ id }) => id)),
  ).toEqual(['shock-dose'])
  expect(bySubject(calculations, 'no such thing')).toEqual([])
})

test('figures are read with units, intervals in one line, and in the units preferred', () => {
  const { calculation, worked } = workedExample('plate-count')
  const rows = (preferred: DisplayUnits) =>
    readableResult({ fields: fieldsOf(calculation.output), values: worked.result, units: preferred }).rows.map(
      ({ words }) => words,
    )
  expect(rows(units).slice(0, 3)).toEqual(['2300 CFU/L', '1458 CFU/L to 3451 CFU/L', '100 CFU/L'])
  expect(rows({ ...units, count: 'per mL' }).slice(0, 2)).toEqual(['2.3 CFU/mL', '1.458 CFU/mL to 3.451 CFU/mL'])
  const table = workedExample('two-by-two')
  const words = workingText(table.calculation, { worked: table.worked, units })
  expect(words).toContain('from 7.393, no finite upper limit')
  expect(words).toContain('6.45 × 10⁻⁶')
})

test.each([
  [true, '', 'yes'],
  [94.248, 's', '94.25 s'],
  [314.159, 's', '314.2 s (5 min 14 s)'],
  [0.5641271, 'mL', '0.5641 mL'],
  [25, '', '25'],
  [undefined, 'L', 'no finite value'],
] as const)('%s in %j reads %j', (value, unit, words) => expect(valueWords(value, { unit, units })).toBe(words))

test('symbols of the formula carry the figures put in, of every row of a list', () => {
  const { calculation, worked } = workedExample('clearing-time')
  const rows = Object.fromEntries(symbolRows(calculation, { worked, units }).map((row) => [row.symbol, row]))
  expect(rows['Q']).toMatchObject({ standsFor: 'Flow at the outlet', value: '6 L/min' })
  expect(rows['V']).toMatchObject({ value: '3.142 L' })
  expect(rows['Re']).toMatchObject({ value: '6345' })
  expect(rows['d']).toMatchObject({ value: '20 mm' })
  expect(rows['ν']?.standsFor).toBe('kinematic viscosity at temperature of the water, for the Reynolds number')
  expect(rows['ν']?.value).toBe('')
})

test('what is typed and is no number is called wrong at its field', () => {
  const calculation = find('clearing-time')
  const fields = fieldsOf(calculation.input)
  const draft = groupDraft(fields, { segments: [{ boreMm: 20 }], flowLPerMin: 6 })
  const run = runOf(calculation, { given: givenBy(fields, { ...draft, flowLPerMin: 'six' }) })
  expect(run).toMatchObject({ kind: 'open', missing: ['segments.0.lengthM'], wrong: [{ path: 'flowLPerMin' }] })
})

test('figures typed in US units give what the same figures give in the units of the record, and are told as they were typed', () => {
  const calculation = find('mixed-temperature')
  const fields = fieldsOf(calculation.input)
  const draft = { hotC: '140 °F', coldC: '50 °F', hotFlowLPerMin: '2 US gal/min', coldFlowLPerMin: '1 US gal/min' }
  const run = runOf(calculation, { given: givenBy(fields, { ...groupDraft(fields, undefined), ...draft }) })
  if (run.kind !== 'worked') throw new RangeError(`Cannot work it: got ${JSON.stringify(run)}`)
  expect(run.worked.input).toMatchObject({ hotC: 60, coldC: 10, hotFlowLPerMin: 7.5708 })
  const text = workingText(calculation, { worked: run.worked, units: US_UNITS })
  for (const typed of Object.values(draft)) expect(text).toContain(typed)
})

test('rows of a list are typed in US units too', () => {
  const calculation = find('clearing-time')
  const fields = fieldsOf(calculation.input)
  const segments = [{ boreMm: '0.785 in', lengthM: '20 ft' }]
  const given = givenBy(fields, { ...groupDraft(fields, undefined), segments, flowLPerMin: '1.5 US gal/min' })
  expect(given).toMatchObject({ segments: [{ boreMm: 19.939, lengthM: 6.096 }], flowLPerMin: 5.67812 })
})

test('a drop of temperature is a difference: no 32 is added', () => {
  const { calculation, worked } = workedExample('loop-temperature')
  const dropK = Number(worked.result['dropK'])
  const words = (preferred: DisplayUnits) =>
    readableResult({ fields: fieldsOf(calculation.output), values: worked.result, units: preferred }).rows.find(
      ({ path }) => path === 'dropK',
    )?.words
  expect(words(METRIC_UNITS)).toBe(`${Number(dropK.toPrecision(4))} K`)
  expect(words(US_UNITS)).toBe(`${Number((dropK * 1.8).toPrecision(4))} °F difference`)
})

test('a moment is read with its day apart, limits within a table as one cell', () => {
  const { calculation, worked } = workedExample('exposure-time')
  const { rows, tables } = readableResult({ fields: fieldsOf(calculation.output), values: worked.result, units })
  expect(rows[0]?.words).toMatch(/^2026-03-\d\d \d\d:\d\d$/)
  const models = tables.find(({ path }) => path === 'models')
  expect(models?.rows[0]?.join(' | ')).toMatch(/2026-03-\d\d \d\d:\d\d to 2026-03-\d\d \d\d:\d\d/)
  expect(tables.flatMap((table) => table.rows.flat()).join(' ')).not.toContain('{')
})
