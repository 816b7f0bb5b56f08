import { expect, test } from 'vitest'
import { pastedTableText, readPastedTable } from './pasted-table.ts'

const TABLE = {
  ok: true,
  head: ['volume', 'positive'],
  rows: [
    ['0,1', '5'],
    ['0,01', ''],
  ],
}

test('columns are parted by tab, semicolon or comma, with empty lines and empty edges left out', () => {
  expect(readPastedTable('volume\tpositive\t\r\n0,1\t5\t\r\n\r\n0,01\t\t\r\n')).toEqual(TABLE)
  expect(readPastedTable(' volume ; positive\n0,1; 5\n0,01')).toEqual(TABLE)
  expect(readPastedTable('volume,positive\n"0,1",5\n"0,01",')).toEqual(TABLE)
})

test('a table of one column and a very wide one are read', () => {
  expect(readPastedTable('count\n5\n3')).toEqual({ ok: true, head: ['count'], rows: [['5'], ['3']] })
  const wide = Array.from({ length: 3000 }, (_, locus) => String(locus)).join('\t')
  const read = readPastedTable(`${wide}\n${wide}`)
  expect(read.ok && read.rows[0]?.length).toBe(3000)
})

test('what is written reads back the same', () => {
  expect(readPastedTable(pastedTableText([TABLE.head, ...TABLE.rows]))).toEqual(TABLE)
  const odd = [
    ['name', 'a;b'],
    ['"x"', '1'],
  ]
  expect(readPastedTable(pastedTableText(odd))).toEqual({ ok: true, head: odd[0], rows: [odd[1]] })
})

test.each([
  ['volume;positive', 'A heading and at least one row below it are needed.'],
  ['a;b\n1;2\n1;2;3', 'Row 2 has 3 columns, the heading 2.'],
  ['a;b\n"1;2', 'A quotation mark in line 2 is not closed.'],
])('%j is not read', (text, problem) => {
  expect(readPastedTable(text)).toEqual({ ok: false, problem })
})
