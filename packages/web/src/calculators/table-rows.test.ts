import { expect, test } from 'vitest'
import * as z from 'zod'
import { fieldsOf } from '../form/field-spec.ts'
import { cellJson, columnHead, jsonCell, readRows, rowsText, typedTable } from './table-rows.ts'

const fields = fieldsOf(
  z.strictObject({
    lengthM: z.number(),
    factor: z.number().default(1),
    note: z.string().optional(),
    after: z.array(z.string()).optional(),
  }),
)

test('a column is headed by its name and unit', () => {
  expect(fields.map(columnHead)).toEqual(['Length (m)', 'Factor', 'Note', 'After'])
})

test('rows that say nothing of their own are not written, nor are columns nobody filled in', () => {
  const blank = { lengthM: '', factor: '1', note: '', after: [] }
  expect(rowsText([blank], fields)).toBe('')
  expect(rowsText([blank, { ...blank, lengthM: '3', after: ['a', 'b'] }], fields)).toBe(
    'Length (m);Factor;After\n3;1;a, b',
  )
})

test('an optional column left out leaves its field empty', () => {
  const read = typedTable('length\n3', { names: ['rows'], made: (table) => readRows(table, { list: 'rows', fields }) })
  expect(read).toEqual({
    drafts: { rows: [{ lengthM: '3', factor: '', note: '', after: '' }] },
    problems: [],
    summary: '1 row, 1 column: Length (m)',
  })
})

test('a table that cannot be read fills nothing', () => {
  const made = (): never => {
    throw new Error('not asked')
  }
  expect(typedTable('length', { names: ['rows'], made })).toEqual({
    drafts: { rows: [] },
    problems: ['A heading and at least one row below it are needed.'],
    summary: '',
  })
})

test('a missing cell is null and a dash again; leading zeros keep a name', () => {
  expect(['', '-', '?', '7', '07', 'new'].map(cellJson)).toEqual(['null', 'null', 'null', '7', '"07"', '"new"'])
  expect(['null', '7', '"07"', ''].map(jsonCell)).toEqual(['-', '7', '07', ''])
})
