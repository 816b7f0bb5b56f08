import { given } from '@rillmark/casebook/entry/given.ts'
import type { Circuit, SampleKind } from '@rillmark/casebook/entry/fields.ts'
import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import type { ColumnRole } from '@rillmark/casebook/results/columns.ts'
import type { Mapping } from '@rillmark/casebook/results/kinds.ts'
import { type Cell, cellText, type RawRow, type RawTable } from '@rillmark/casebook/results/raw-table.ts'
import type { Method, ReadResult, ReadRow, Remark } from '@rillmark/casebook/results/read-row.ts'
import { type ConcentrationUnit, concentrationUnitSchema } from '@rillmark/casebook/units/quantity.ts'
import { dateLookalike, readDate } from './read-date.ts'
import { readNumber } from './read-number.ts'
import { readUnit } from './read-unit.ts'
import { readValue } from './read-value.ts'

/** What speaks against reading this table with this mapping; all at once. */
export function mappingIssues(table: RawTable, mapping: Mapping): Issue[] {
  const known = new Set(table.headers)
  const named = [
    ...Object.entries(mapping.columns),
    ...(mapping.results ?? []).map(({ column }, index): [string, string] => [`results.${index}`, column]),
  ]
  const missing = named
    .filter(([, header]) => !known.has(header))
    .map(([path, header]) => issue(path, { expected: 'a column of this file', received: header }))
  if ((mapping.results ?? []).length === 0)
    missing.push(issue('results', { expected: 'at least one column with results', received: undefined }))
  if (mapping.columns['label'] === undefined && (mapping.labelFrom ?? []).length === 0)
    missing.push(
      issue('columns.label', {
        expected: 'the column with the sample label, or columns to make one of',
        received: undefined,
      }),
    )
  return missing
}

/** Reads a table's rows by a mapping: every cell as the variant it is, remarks where something is not plain, nothing judged or dropped. */
export function readRows(table: RawTable, mapping: Mapping): ReadRow[] {
  const positions = new Map(table.headers.map((header, index) => [header, index]))
  return table.rows.map((row) => readRow(row, { table, mapping, positions }))
}

interface Reading {
  readonly table: RawTable
  readonly mapping: Mapping
  readonly positions: ReadonlyMap<string, number>
}

function readRow(row: RawRow, reading: Reading): ReadRow {
  const { mapping } = reading
  const cell = (role: ColumnRole): Cell => cellAt(row, { reading, header: mapping.columns[role] })
  const text = (role: ColumnRole): string => cellText(cell(role))
  const temperature = readTemperature(cell('temperatureC'), mapping.decimal)
  return {
    row: row.number,
    label: labelOf(row, reading),
    results: readResults(row, { reading, text }),
    ...filledIn({
      place: text('place'),
      species: text('species'),
      serogroup: text('serogroup'),
      reportId: text('reportId'),
      group: text('group'),
      notes: text('notes'),
    }),
    ...given({
      collectedOn: readDate(cell('collectedOn'), mapping.dateOrder),
      receivedOn: readDate(cell('received'), mapping.dateOrder),
      reportedOn: readDate(cell('reportedOn'), mapping.dateOrder),
      volumeExaminedMl: volumeOf(text('volumeMl'), { mapping, header: mapping.columns['volumeMl'] ?? '' }),
      temperatureC: temperature.value,
      status: statusOf(text('status')),
      draw: drawOf(text('draw')),
      sampleKind: sampleKindOf(text('sampleKind')),
      circuit: circuitOf(text('circuit')),
    }),
    remarks: temperature.remarks,
    asWritten: asWritten(row, reading.table.headers),
  }
}

function cellAt(row: RawRow, { reading, header }: { reading: Reading; header: string | undefined }): Cell {
  const position = header === undefined ? undefined : reading.positions.get(header)
  return (position === undefined ? undefined : row.cells[position]) ?? { kind: 'empty' }
}

function labelOf(row: RawRow, reading: Reading): string {
  const { mapping } = reading
  const header = mapping.columns['label']
  if (header !== undefined) return cellText(cellAt(row, { reading, header }))
  const parts = (mapping.labelFrom ?? []).map((each) => cellText(cellAt(row, { reading, header: each })))
  return [mapping.labelPrefix ?? '', ...parts].filter((part) => part !== '').join(' ')
}

function readResults(
  row: RawRow,
  { reading, text }: { reading: Reading; text: (role: ColumnRole) => string },
): ReadResult[] {
  const { mapping } = reading
  const rowUnit = readUnit(text('unit'))
  const stated = readNumber(text('limit').replace(/^[<≤]\s*/, ''), mapping.decimal)
  const limit = stated.kind === 'number' && stated.value > 0 ? stated.value : undefined
  return (mapping.results ?? []).map((column) => {
    const cell = cellAt(row, { reading, header: column.column })
    const unit = rowUnit.kind === 'unit' ? rowUnit.unit : (column.unit ?? fallbackUnit(mapping))
    const read = readValue(cell, {
      decimal: mapping.decimal,
      unit,
      limit: limit ?? column.limit,
      volumeMl: volumeOf(text('volumeMl'), { mapping, header: mapping.columns['volumeMl'] ?? '' }),
      ...(text('qualifier') === '' ? {} : { qualifier: text('qualifier') }),
    })
    return {
      column: column.column,
      method: methodOf(text('method')) ?? column.method,
      target: text('target') || column.target || 'Legionella',
      cell,
      limit: limit ?? column.limit,
      ...read,
    }
  })
}

function fallbackUnit({ unit }: Mapping): ConcentrationUnit | undefined {
  const parsed = concentrationUnitSchema.safeParse(unit)
  return parsed.success ? parsed.data : undefined
}

function methodOf(text: string): Method | undefined {
  if (text === '') return undefined
  if (/pcr/iu.test(text)) return 'PCR'
  if (/mpn|npp|most probable/iu.test(text)) return 'most probable number'
  return /cultur|kultur|11731|plate|spread|membran|direkt/iu.test(text) ? 'culture' : undefined
}

function readTemperature(cell: Cell, decimal: 'point' | 'comma'): { value: number | undefined; remarks: Remark[] } {
  if (cell.kind === 'number') return { value: inRange(cell.value), remarks: [] }
  const shown = cellText(cell)
  const date =
    cell.kind === 'date'
      ? { day: Number(cell.date.slice(8)), month: Number(cell.date.slice(5, 7)) }
      : cell.kind === 'text'
        ? dateLookalike(shown)
        : undefined
  if (date !== undefined)
    return {
      value: undefined,
      remarks: [
        {
          trap: 'date for number',
          words: `the temperature is the date ${shown}; a spreadsheet may have made it of ${date.day}.${date.month} °C. Left out`,
        },
      ],
    }
  const number = readNumber(shown.replace(/\s*°?\s*C$/u, ''), decimal)
  return { value: number.kind === 'no number' ? undefined : inRange(number.value), remarks: [] }
}

const LIQUID = { fromC: -5, toC: 110 }

function inRange(valueC: number): number | undefined {
  return valueC >= LIQUID.fromC && valueC <= LIQUID.toC ? valueC : undefined
}

function volumeOf(text: string, { mapping, header }: { mapping: Mapping; header: string }): number | undefined {
  const found = /^(\d[\d.,]*)\s*(ml|l)?$/iu.exec(text.trim())
  const number = found?.[1] === undefined ? undefined : readNumber(found[1], mapping.decimal)
  if (number === undefined || number.kind === 'no number' || number.value <= 0) return undefined
  const litres =
    found?.[2] === undefined ? /\bL\b|liter|litre/u.test(header) && !/mL/iu.test(header) : /^l$/iu.test(found[2])
  return litres ? number.value * 1000 : number.value
}

function statusOf(text: string): ReadRow['status'] {
  if (/correct|amend|supersed|revis|korrig|berichtigt|corrig|rettific/iu.test(text)) return 'corrected'
  if (/prelim|vorläufig|provisoire|provvisorio|interim|partial/iu.test(text)) return 'preliminary'
  return /final|endg|définitif|definitiv/iu.test(text) ? 'final' : undefined
}

/** Only where the words say how the water was drawn: a "remedial flush" is a treatment, not a way of sampling. */
function drawOf(text: string): ReadRow['draw'] {
  if (
    /first[- ](?:draw|flush|litre|liter)|pre[- ]?flush|before flush|premier jet|erster? (?:strahl|ablauf)|spülfrei/iu.test(
      text,
    )
  )
    return 'first draw'
  return /after .*flush|flushed|post[- ]?flush|second draw|deuxième jet|nach (?:ablauf|spülung)|abgelaufen/iu.test(text)
    ? 'flushed'
    : undefined
}

function sampleKindOf(text: string): SampleKind | undefined {
  if (/swab|tupfer|écouvillon|biofilm|tampone/iu.test(text)) return 'first-flush-swab'
  if (/blank|leerwert|blanc|bianco/iu.test(text)) return 'field-blank'
  if (/return|rücklauf|retour|zirkulation|ricircolo/iu.test(text)) return 'return-line'
  if (/drain|boiler|heater|speicher|ballon/iu.test(text)) return 'heater-drain'
  if (/cold|kalt|froide|fredda/iu.test(text)) return 'bulk-cold'
  return /hot|warm|chaude|calda|bulk/iu.test(text) ? 'bulk-hot' : undefined
}

function circuitOf(text: string): Circuit | undefined {
  if (/return|zirkulation|rücklauf|retour/iu.test(text)) return 'hot-return'
  if (/mixed|tempered|misch|mitig/iu.test(text)) return 'tempered'
  if (/cold|kalt|froid|fredd|pwc/iu.test(text)) return 'cold'
  return /hot|warm|chaud|cald|pwh/iu.test(text) ? 'hot' : undefined
}

function filledIn<T extends Record<string, string>>(fields: T): Partial<T> {
  return Object.fromEntries(Object.entries(fields).filter(([, text]) => text !== '')) as Partial<T>
}

function asWritten(row: RawRow, headers: readonly string[]): Record<string, string> {
  const cells = headers.map((header, index): [string, string] => [header, cellText(row.cells[index])])
  return Object.fromEntries(cells.filter(([, text]) => text !== ''))
}
