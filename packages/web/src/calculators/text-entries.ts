import { counted } from '@rillmark/casebook/units/counted.ts'
import { asGroup } from '../form/draft.ts'
import type { FieldSpec, NamedField } from '../form/field-spec.ts'
import { labelAt } from '../form/label-at.ts'
import { linesOfReadings, readingsOfLines } from './reading-lines.ts'
import {
  cellJson,
  columnHead,
  jsonCell,
  listIn,
  namedRows,
  ownRowsText,
  readOwnRows,
  readRows,
  rowsText,
  tableText,
  typedTable,
} from './table-rows.ts'
import { typedFigure } from './typed-cell.ts'
import type { TextEntry } from './typed-text.ts'

const PASTE = 'Paste from a spreadsheet, or type with semicolons between the columns.'

/** The entry by text of a field, where its list is better typed as lines or pasted as a table; undefined leaves it to the form. */
export function textEntryOf(field: NamedField, fields: readonly NamedField[]): TextEntry | undefined {
  const { spec } = field
  if (spec.kind !== 'list') return undefined
  const place = { label: field.label, needed: field.needed }
  const { row } = spec
  if (field.name === 'values' && row.kind === 'json') return readingEntry(place)
  if (row.kind === 'json') return row.fields === undefined ? undefined : ownTableEntry(field, row.fields)
  if (row.kind === 'number') return field.unit === '' ? figureEntry(field) : undefined
  if (row.kind === 'text') return fields.some(isSquare) ? squareEntry(field) : undefined
  if (row.kind !== 'group') return undefined
  const profile = profileOf(row.fields)
  return profile === undefined ? undefined : profileEntry(field, profile)
}

/** The entry as a table of a list of rows that can also be filled in one by one. */
export function tableEntryOf(field: NamedField): TextEntry | undefined {
  const { spec } = field
  if (spec.kind !== 'list' || spec.row.kind !== 'group' || !spec.row.fields.every(isPlain)) return undefined
  const { fields } = spec.row
  const list = field.name
  const [asked, other] = [fields.filter(({ needed }) => needed), fields.filter(({ needed }) => !needed)]
  const more = other.length === 0 ? '' : ` Also, where known: ${heads(other)}.`
  return {
    ...rowPlaces([field]),
    names: [list],
    label: `${field.label}, as a table`,
    needed: field.needed,
    hint: `Heading: ${heads(asked)}.${more} ${PASTE}`,
    read: (text) => typedTable(text, { names: [list], made: (table) => readRows(table, { list, fields }) }),
    write: (draft) => rowsText(listIn(draft, list), fields),
  }
}

const heads = (fields: readonly NamedField[]): string => fields.map(columnHead).join('; ')
/** What a cell can hold: one figure, word or date, or names with commas between them. */
const isPlain = ({ spec }: NamedField): boolean =>
  ['text', 'date', 'number', 'choice', 'flag'].includes(spec.kind) || (spec.kind === 'list' && spec.row.kind === 'text')
const isSquare = ({ spec }: NamedField): boolean =>
  spec.kind === 'list' && spec.row.kind === 'list' && spec.row.row.kind === 'json'

interface Profile {
  readonly name: string
  readonly cells: string
}

/** A name and one list of whatever belongs to it. */
function profileOf([name, cells, ...more]: readonly NamedField[]): Profile | undefined {
  if (name?.spec.kind !== 'text' || cells?.spec.kind !== 'list' || more.length > 0) return undefined
  return isScalar(cells.spec.row) ? { name: name.name, cells: cells.name } : undefined
}

const isScalar = ({ kind }: FieldSpec): boolean => kind === 'json' || kind === 'number'

function readingEntry({ needed }: { readonly needed: boolean }): TextEntry {
  return {
    names: ['values'],
    label: 'Readings, one a line',
    hint: '20 for a count, <10 below a limit, >300 above one, 30-40 between two; all in one unit, such as CFU/L. Never 0 or half a limit for one below it.',
    needed,
    read: readingsOfLines,
    write: (draft) => linesOfReadings(listIn(draft, 'values')),
    placeOf: linePlace,
  }
}

function figureEntry({ name, label, hint, needed }: NamedField): TextEntry {
  return {
    names: [name],
    label: `${label}, one a line`,
    hint,
    needed,
    read: (text) => {
      const lines = text.split(/\r?\n/).map((line) => line.trim())
      const problems = lines.flatMap((line, index) => {
        const problem = line === '' ? undefined : problemOf(typedFigure(line))
        return problem === undefined ? [] : [`Line ${index + 1}: ${problem}`]
      })
      const figures = problems.length > 0 ? [] : lines.flatMap((line) => figureDraft(line))
      return { drafts: { [name]: figures }, problems, summary: `${counted(figures.length, 'number')} read` }
    },
    write: (draft) =>
      listIn(draft, name)
        .filter((each) => each !== '')
        .join('\n'),
    placeOf: linePlace,
  }
}

function figureDraft(line: string): readonly string[] {
  const read = line === '' ? undefined : typedFigure(line)
  return read === undefined || 'problem' in read ? [] : [String(read.value)]
}

/** The line of an issue at `values.3`: the fourth that is not empty. */
function problemOf(read: ReturnType<typeof typedFigure>): string | undefined {
  return 'problem' in read ? read.problem : undefined
}

function linePlace(path: string, text: string): string {
  const index = Number(path.split('.')[1] ?? Number.NaN)
  const filled = text.split(/\r?\n/).flatMap((line, at) => (line.trim() === '' ? [] : [at + 1]))
  return filled[index] === undefined ? '' : `Line ${filled[index]}`
}

function rowPlaces(fields: readonly NamedField[]): Pick<TextEntry, 'placeOf'> {
  return {
    placeOf: (path) => (path.includes('.') ? labelAt(fields, path).label.replace(': ', ', ') : ''),
  }
}

function ownTableEntry(field: NamedField, fields: readonly NamedField[]): TextEntry {
  const list = field.name
  return {
    ...rowPlaces([field]),
    names: [list],
    label: `${field.label}, as a table`,
    hint: `Heading: ${fields.map((each) => `${columnHead(each)} (${each.label})`).join('; ')}, then a name for each other column. A figure in every row, 1 and 0 or yes and no. ${PASTE}`,
    needed: field.needed,
    read: (text) => typedTable(text, { names: [list], made: (table) => readOwnRows(table, { list, fields }) }),
    write: (draft) => ownRowsText(listIn(draft, list)),
  }
}

function profileEntry(field: NamedField, { name, cells }: Profile): TextEntry {
  const list = field.name
  return {
    ...rowPlaces([field]),
    names: [list],
    label: `${field.label}, as a table`,
    hint: `Heading: a word for the name, then the loci. One row each: its name, then its ${cells}; - or nothing where missing. ${PASTE}`,
    needed: field.needed,
    read: (text) =>
      typedTable(text, {
        names: [list],
        made: (table) => ({
          drafts: { [list]: namedRows(table).map((row) => ({ [name]: row.name, [cells]: row.cells.map(cellJson) })) },
          problems: [],
        }),
      }),
    write: (draft) => {
      const rows = listIn(draft, list)
        .map(asGroup)
        .map((each) => [jsonFree(each[name]), ...listIn(each, cells).map(jsonCell)])
        .filter((row) => row.some((cell) => cell !== ''))
      const width = Math.max(0, ...rows.map(({ length }) => length - 1))
      return tableText(['name', ...Array.from({ length: width }, (_, at) => `${at + 1}`)], rows)
    },
  }
}

const jsonFree = (draft: unknown): string => (typeof draft === 'string' ? draft : '')

/** Names and the square of what lies between them: one table with the names on both sides. */
function squareEntry({ name: ids, needed }: NamedField): TextEntry {
  return {
    names: [ids, 'matrix'],
    label: 'Distances, as a table',
    hint: `Heading: a word, then the names. One row each: its name, then its distance to each in the same order; - or nothing where two have nothing to compare. ${PASTE}`,
    needed,
    read: (text) =>
      typedTable(text, {
        names: [ids, 'matrix'],
        made: (table) => {
          const rows = namedRows(table)
          const wrong = rows.findIndex(({ name }, at) => name !== table.head[at + 1])
          const square = wrong < 0 && rows.length === table.head.length - 1
          const at = wrong < 0 ? rows.length : wrong
          return {
            drafts: { [ids]: rows.map(({ name }) => name), matrix: rows.map(({ cells }) => cells.map(cellJson)) },
            problems: square
              ? []
              : [
                  `Row ${at + 1} is “${rows[at]?.name ?? 'missing'}”, column ${at + 2} “${table.head[at + 1] ?? 'missing'}”: the same names are needed on both sides.`,
                ],
          }
        },
      }),
    write: (draft) => {
      const names = listIn(draft, ids).map(jsonFree)
      const rows = listIn(draft, 'matrix').map((row, at) => [
        names[at] ?? '',
        ...(Array.isArray(row) ? row.map(jsonCell) : []),
      ])
      return names.every((name) => name === '') ? '' : tableText(['name', ...names], rows)
    },
    placeOf: (path) => {
      const [list, row] = path.split('.')
      return row === undefined ? '' : `${list === ids ? 'Name' : 'Row'} ${Number(row) + 1}`
    },
  }
}
