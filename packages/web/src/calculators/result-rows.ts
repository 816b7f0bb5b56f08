import type { DisplayUnits } from '@rillmark/casebook/units/display-units.ts'
import { show, showConcentration, showReckoned } from '@rillmark/casebook/units/display.ts'
import { isRecordUnit, plainText } from '@rillmark/casebook/units/scales.ts'
import { inWords, limitWords } from '@rillmark/science/catalogue/answer-words.ts'
import type { FieldSpec, NamedField } from '../form/field-spec.ts'
import { choiceWords } from '../form/field-words.ts'
import { lowerFirst } from '../form/label-at.ts'
import { namedTable, objectWords } from './object-words.ts'

/** One line of a result as people read it. */
export interface ResultRow {
  readonly path: string
  readonly label: string
  readonly words: string
  readonly hint: string
}

/** A list in a result, as a table. */
export interface ResultTable {
  readonly path: string
  readonly label: string
  readonly columns: readonly {
    readonly name: string
    readonly label: string
    readonly unit: string
    readonly numeric: boolean
  }[]
  readonly rows: readonly (readonly string[])[]
}

export interface ReadableResult {
  readonly rows: readonly ResultRow[]
  readonly tables: readonly ResultTable[]
}

type Values = Readonly<Record<string, unknown>>

export interface Reading {
  readonly fields: readonly NamedField[]
  readonly values: Values
  readonly units: DisplayUnits
  /** put in by a person: every digit is kept */
  readonly given?: boolean | undefined
}

/** A calculation's values (its input or its result) in words: numbers with units, intervals in one line, yes and no, lists as tables. */
export function readableResult({ fields, values, units, given }: Reading): ReadableResult {
  return readGroup(fields, { values: given === true ? values : inWords(values), units, given, path: '', within: '' })
}

interface Place {
  readonly values: Values
  readonly units: DisplayUnits
  readonly given: boolean | undefined
  readonly path: string
  /** label of the group these fields stand in */
  readonly within: string
}

function readGroup(fields: readonly NamedField[], place: Place): ReadableResult {
  const read = fields
    .filter(({ name }) => place.within !== '' || place.values[name] !== undefined)
    .map((field) => readField(field, place))
  return { rows: read.flatMap(({ rows }) => rows), tables: read.flatMap(({ tables }) => tables) }
}

function readField(field: NamedField, place: Place): ReadableResult {
  const value = place.values[field.name]
  const path = place.path === '' ? field.name : `${place.path}.${field.name}`
  const label = place.within === '' ? field.label : `${place.within}: ${lowerFirst(field.label)}`
  const { spec, unit } = field
  const how: ShownIn = { unit, units: place.units, given: place.given }
  if (spec.kind === 'group' && isObject(value)) {
    if (isInterval(spec.fields))
      return row({ path, label, field, words: limitWords(value, (each) => valueWords(each, how)) })
    if (isSpread(value)) return spreadRow(value, { path, label, ...how })
    return hintedFirst(readGroup(spec.fields, { ...place, values: value, path, within: label }), field.hint)
  }
  if (spec.kind === 'variant' && isObject(value))
    return row({ path, label, field, words: Object.values(value).map(String).join(', ') })
  if (spec.kind === 'list' && Array.isArray(value)) {
    if (spec.row.kind === 'group') return { rows: [], tables: [tableOf(spec.row, { ...place, value, path, label })] }
    return row({
      path,
      label,
      field,
      words: value.map((item) => valueWords(item, how)).join(', '),
    })
  }
  const named = spec.kind === 'json' ? namedTable(value, (each) => valueWords(each, how)) : undefined
  if (named !== undefined) return { rows: [], tables: [{ path, label, ...named }] }
  return row({ path, label, field, words: valueWords(value, how) })
}

function row(given: { path: string; label: string; field: NamedField; words: string }): ReadableResult {
  const { path, label, words, field } = given
  return { rows: [{ path, label, words, hint: LEFT_OUT.test(field.hint) ? '' : field.hint }], tables: [] }
}

/** A remark on a whole group stands at its first line. */
function hintedFirst({ rows, tables }: ReadableResult, hint: string): ReadableResult {
  return { rows: rows.map((each, index) => (index === 0 && each.hint === '' ? { ...each, hint } : each)), tables }
}

/** What is left out of a result is said in words in its place. */
const LEFT_OUT = /left out/i

function isInterval(fields: readonly NamedField[]): boolean {
  return fields.length === 2 && fields[0]?.name === 'lower' && fields[1]?.name === 'upper'
}

/** What many draws came to: their middle and the ends most of them lie between. */
function isSpread(value: Values): boolean {
  return ['p5', 'median', 'p95', 'mean', 'medianStandardError'].every((name) => typeof value[name] === 'number')
}

/** The middle, then where nine draws of ten lie; beside it what else is told, above all how far simulating may be off. */
function spreadRow(
  { p5, median, p95, mean, medianStandardError }: Values,
  { path, label, ...shown }: ShownIn & { path: string; label: string },
): ReadableResult {
  const short = (value: unknown): string =>
    valueWords(typeof value === 'number' ? Number(value.toPrecision(SPREAD_DIGITS)) : value, shown)
  const hint = `Median; mean ${short(mean)}; simulated to ± ${short(medianStandardError)}`
  return {
    rows: [{ path, label, words: `${short(median)}; 90 of 100 draws from ${short(p5)} to ${short(p95)}`, hint }],
    tables: [],
  }
}

/** Draws do not fix more. */
const SPREAD_DIGITS = 3

function tableOf(
  spec: FieldSpec & { kind: 'group' },
  given: Place & { value: readonly unknown[]; path: string; label: string },
): ResultTable {
  return {
    path: given.path,
    label: given.label,
    columns: spec.fields.map(({ name, label, unit, spec: { kind } }) => ({
      name,
      label,
      unit,
      numeric: kind === 'number',
    })),
    rows: given.value.map((item) =>
      spec.fields.map((field) => cellWords(field, { ...given, value: isObject(item) ? item[field.name] : undefined })),
    ),
  }
}

/** Limits of an interval stand in one cell. */
function cellWords({ spec, unit }: NamedField, cell: Pick<Place, 'units' | 'given'> & { value: unknown }): string {
  const how: ShownIn = { unit, units: cell.units, given: cell.given }
  const isLimits = spec.kind === 'group' && isInterval(spec.fields) && isObject(cell.value)
  return isLimits ? limitWords(cell.value as Values, (each) => valueWords(each, how)) : valueWords(cell.value, how)
}

/** The unit a value is in, and the units people prefer. */
export interface ShownIn {
  readonly unit: string
  readonly units: DisplayUnits
  /** put in by a person: every digit is kept */
  readonly given?: boolean | undefined
}

/** One value with its unit, in the preferred unit where there is one. */
export function valueWords(value: unknown, { unit, units, given }: ShownIn): string {
  if (value === undefined || value === null) return 'no finite value'
  if (typeof value === 'boolean') return value ? 'yes' : 'no'
  if (typeof value === 'number') return numberWords(value, { unit, units, given })
  if (typeof value === 'string') return textWords(value)
  return typeof value === 'object'
    ? objectWords(value, (each) => valueWords(each, { unit, units, given }))
    : JSON.stringify(value)
}

/** A choice in words, a moment with its day apart from its time. */
function textWords(value: string): string {
  return /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}/.test(value) ? value.replace('T', ' ') : choiceWords(value)
}

function numberWords(value: number, { unit, units, given = false }: ShownIn): string {
  if (isRecordUnit(unit) && (value === 0 || Math.abs(value) >= SMALLEST_PLAIN))
    return (given ? show : showReckoned)(value, { unit, units }).words
  if (unit === 'CFU/L') return showConcentration({ value: given ? value : rounded(value), unit }, units).words
  const text = given && Math.abs(value) >= SMALLEST_PLAIN ? plainText(value) : plain(value)
  if (unit === 's') return `${text} s${minutesToo(value)}`
  return unit === '' ? text : `${text} ${unit}`
}

const rounded = (value: number): number => Number(value.toPrecision(SHOWN_DIGITS))

/** Long enough for every measurement of the trade; what was put in keeps all digits given. */
const SHOWN_DIGITS = 4
const SECONDS_PER_MINUTE = 60
const SMALLEST_PLAIN = 1e-4
/** No quantity put in is larger: beyond it a row of digits says less than its power of ten. */
const LARGEST_PLAIN = 1e12

function minutesToo(seconds: number): string {
  if (seconds < 2 * SECONDS_PER_MINUTE) return ''
  const whole = Math.round(seconds)
  return ` (${Math.floor(whole / SECONDS_PER_MINUTE)} min ${whole % SECONDS_PER_MINUTE} s)`
}

/** Four digits that count, whole numbers whole; very small and very large ones as a power of ten in words a reader knows. */
function plain(value: number): string {
  const size = Math.abs(value)
  if (size >= LARGEST_PLAIN || (size !== 0 && size < SMALLEST_PLAIN)) {
    const [digits = '', exponent = ''] = value.toExponential(SHOWN_DIGITS - 2).split('e')
    return `${digits.replace('-', '−')} × 10${superscript(exponent)}`
  }
  if (Number.isInteger(value)) return String(value).replace('-', '−')
  return String(Number(value.toPrecision(SHOWN_DIGITS))).replace('-', '−')
}

function superscript(exponent: string): string {
  return exponent
    .replace('+', '')
    .replace(/[-\d]/g, (sign) => '⁻⁰¹²³⁴⁵⁶⁷⁸⁹'.charAt(sign === '-' ? 0 : Number(sign) + 1))
}

function isObject(value: unknown): value is Values {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}
