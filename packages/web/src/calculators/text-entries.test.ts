import { calculations, findCalculation } from '@rillmark/science/catalogue/catalogue.ts'
import { expect, test } from 'vitest'
import { type GroupDraft, groupDraft } from '../form/draft.ts'
import { type FieldSpec, fieldsOf, type NamedField } from '../form/field-spec.ts'
import { givenBy } from './calculation-run.ts'
import { tableEntryOf, textEntryOf } from './text-entries.ts'
import type { TextEntry, TypedText } from './typed-text.ts'

const fieldsOfId = (id: string): readonly NamedField[] => fieldsOf((findCalculation(id) ?? never(id)).input)

function never(id: string): never {
  throw new Error(`no ${id}`)
}

function entryOf(id: string, name: string): TextEntry {
  const fields = fieldsOfId(id)
  const field = fields.find((each) => each.name === name) ?? never(name)
  return textEntryOf(field, fields) ?? tableEntryOf(field) ?? never(name)
}

const read = (id: string, { name, text }: { name: string; text: string }): TypedText => entryOf(id, name).read(text)
const given = (id: string, { drafts }: TypedText): unknown =>
  givenBy(fieldsOfId(id), { ...groupDraft(fieldsOfId(id), {}), ...drafts })

const entries = calculations.flatMap(({ id, example, input }) => {
  const fields = fieldsOf(input)
  return fields.flatMap((field) => {
    const entry = textEntryOf(field, fields) ?? tableEntryOf(field)
    return entry === undefined ? [] : [{ id, name: field.name, fields, entry, example: example.input }]
  })
})

test.each(entries)('$id: $name reads back as its example says', ({ fields, entry, example }) => {
  const draft = groupDraft(fields, example)
  const { drafts, problems } = entry.read(entry.write(draft))
  expect(problems).toEqual([])
  expect(givenBy(fields, { ...draft, ...drafts })).toEqual(givenBy(fields, draft))
  expect(entry.write(groupDraft(fields, undefined))).toBe(
    entry.names[0] === 'quantiles' ? '0.25\n0.5\n0.75\n0.9\n0.95' : '',
  )
})

test('no calculator asks for JSON', () => {
  const filled = new Set(entries.flatMap(({ id, entry }) => entry.names.map((name) => `${id} ${name}`)))
  const json = calculations.flatMap(({ id, input }) =>
    fieldsOf(input).flatMap(({ name, spec }) =>
      holdsJson(spec) && !filled.has(`${id} ${name}`) ? [`${id} ${name}`] : [],
    ),
  )
  expect(json).toEqual([])
})

function holdsJson(spec: FieldSpec): boolean {
  if (spec.kind === 'list') return holdsJson(spec.row)
  if (spec.kind === 'group') return spec.fields.some((field) => holdsJson(field.spec))
  if (spec.kind === 'variant') return spec.options.some(({ fields }) => fields.some((field) => holdsJson(field.spec)))
  return spec.kind === 'json'
}

test('columns are found by any of their names and in any order, decimal commas and marks between thousands are read', () => {
  const wells = read('most-probable-number', {
    name: 'wells',
    text: 'positive\tinoculated\tvolumeMl\n5\t10\t0,1\n3\t1 000\t0.01\n',
  })
  expect(wells.problems).toEqual([])
  expect(wells.summary).toBe('2 rows, 3 columns: Volume (mL), Inoculated, Positive')
  expect(given('most-probable-number', wells)).toMatchObject({
    wells: [
      { volumeMl: 0.1, inoculated: 10, positive: 5 },
      { volumeMl: 0.01, inoculated: 1000, positive: 3 },
    ],
  })
})

test('yes and no are read for a flag, and nothing else', () => {
  const text = 'Case exposed;Controls;Controls exposed\nyes;2;0\n0;2;1'
  expect(given('matched-sets', read('matched-sets', { name: 'sets', text }))).toMatchObject({
    sets: [
      { caseExposed: true, controls: 2, controlsExposed: 0 },
      { caseExposed: false, controls: 2, controlsExposed: 1 },
    ],
  })
  expect(read('matched-sets', { name: 'sets', text: `${text}\nperhaps;2;1\n;2;1` })).toMatchObject({
    drafts: { sets: [] },
    problems: ['Row 3, Case exposed: yes or no is needed, not “perhaps”.', 'Row 4, Case exposed: yes or no is needed.'],
  })
})

test('problems are named by row and column, and nothing is calculated from the rest', () => {
  const text = 'Volume (mL);Inoculated;Remarks\n1,000;10;\nten;10;'
  expect(read('most-probable-number', { name: 'wells', text })).toMatchObject({
    drafts: { wells: [] },
    problems: [
      'The heading has no column “Positive”.',
      'No column is called “Remarks” here.',
      'Row 1, Volume (mL): “1,000” can be 1000 or 1: leave out marks between thousands.',
      'Row 2, Volume (mL): “ten” is not a number.',
    ],
  })
})

test('columns under names of one’s own hold a figure in every row', () => {
  const text = 'Outcome,shower,age\n1,yes,71\n0,no,64.5'
  expect(given('penalised-logistic', read('penalised-logistic', { name: 'rows', text }))).toMatchObject({
    rows: [
      { outcome: 1, shower: 1, age: 71 },
      { outcome: 0, shower: 0, age: 64.5 },
    ],
  })
  expect(read('penalised-logistic', { name: 'rows', text: 'outcome;shower;shower\n1;;0' }).problems).toEqual([
    'Two columns are called “shower”.',
    'Row 1, shower: a figure is needed.',
  ])
  expect(read('penalised-logistic', { name: 'rows', text: 'ill;shower\n1;0' }).problems).toEqual([
    'The heading has no column “Outcome”.',
  ])
})

test('names in one cell stand with commas between them', () => {
  const text = 'Name;Length (m);After\nrise;12;\nfloor;8;rise, flow'
  expect(given('loop-temperature', read('loop-temperature', { name: 'segments', text }))).toMatchObject({
    segments: [
      { name: 'rise', lengthM: 12 },
      { name: 'floor', lengthM: 8, after: ['rise', 'flow'] },
    ],
  })
})

test('an allele may be missing, a number or a name', () => {
  const text = 'isolate\tflaA\tpilE\tasd\npatient\t1\t-\t3\nbasin 118\t\tnew\t03'
  expect(given('allele-distance', read('allele-distance', { name: 'profiles', text }))).toMatchObject({
    profiles: [
      { id: 'patient', alleles: [1, null, 3] },
      { id: 'basin 118', alleles: [null, 'new', '03'] },
    ],
  })
})

test('a square of distances has the same names on both sides', () => {
  const text = 'x;a;b\na;0;-\nb;;0'
  expect(given('minimum-spanning-tree', read('minimum-spanning-tree', { name: 'ids', text }))).toMatchObject({
    ids: ['a', 'b'],
    matrix: [
      [0, null],
      [null, 0],
    ],
  })
  expect(read('minimum-spanning-tree', { name: 'ids', text: 'x;a;b\na;0;1\nc;1;0' }).problems).toEqual([
    'Row 2 is “c”, column 3 “b”: the same names are needed on both sides.',
  ])
  expect(read('minimum-spanning-tree', { name: 'ids', text: 'x;a;b\na;0;1' }).problems).toEqual([
    'Row 2 is “missing”, column 3 “b”: the same names are needed on both sides.',
  ])
})

test('figures stand one a line', () => {
  expect(read('discrimination-index', { name: 'counts', text: '5\n\n 3\r\n2' })).toEqual({
    drafts: { counts: ['5', '3', '2'] },
    problems: [],
    summary: '3 numbers read',
  })
  expect(read('discrimination-index', { name: 'counts', text: '5\n\nthree' }).problems).toEqual([
    'Line 3: “three” is not a number.',
  ])
})

test('an issue of the check is told at its line or row', () => {
  expect(entryOf('censored-summary', 'values').placeOf('values.1.below', '20\n\n<10')).toBe('Line 3')
  expect(entryOf('most-probable-number', 'wells').placeOf('wells.1.positive', '')).toMatch(/^Well 2, /)
  expect(entryOf('minimum-spanning-tree', 'ids').placeOf('matrix.1', '')).toBe('Row 2')
})

test('an empty text says nothing', () => {
  const nothing: GroupDraft = { wells: [] }
  expect(read('most-probable-number', { name: 'wells', text: ' \n' })).toEqual({
    drafts: nothing,
    problems: [],
    summary: '',
  })
})
