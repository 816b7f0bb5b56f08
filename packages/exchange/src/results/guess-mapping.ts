import type { Mapping } from '@rillmark/casebook/results/kinds.ts'
import { type ColumnRole, columnRoles } from '@rillmark/casebook/results/columns.ts'
import { cellText, type RawTable } from '@rillmark/casebook/results/raw-table.ts'
import type { Method } from '@rillmark/casebook/results/read-row.ts'
import { familyOf } from '@rillmark/casebook/units/quantity.ts'
import { readUnit } from './read-unit.ts'
import { comparatorOf, resultWord } from './result-words.ts'

/** Words in headings, in several languages (common words of the trade, no source). The first role that fits a heading takes it. */
const ROLE_WORDS: readonly (readonly [ColumnRole, RegExp])[] = [
  [
    'limit',
    /\b(?:lod|loq|mdl|ldd|ldq)\b|detection limit|limit of (?:detection|quant)|reporting limit|nachweisgrenze|bestimmungsgrenze|limite de (?:d[ée]tection|quantification)/iu,
  ],
  ['unit', /^(?:units?|einheit|unité|unità|unidad|eenheid|uom)$/iu],
  ['qualifier', /^(?:qualifier|sign|comparator|operator|vorzeichen|signe|[<>=/ ]+)$/iu],
  ['volumeMl', /volume|volumen|probenmenge|untersuchungsmenge/iu],
  [
    'collectedOn',
    /collect|sampl(?:ed|ing) (?:on|date)|sample date|date (?:of )?(?:sampling|collection|taken)|date sampled|entnahme|probenahme|probennahme|prélèvement|prelievo|muestreo|monstername/iu,
  ],
  ['received', /receiv|receipt|eingang|réception|ricevimento|recepción|ontvangst/iu],
  [
    'reportedOn',
    /report(?:ed)? (?:on|date)|date (?:of )?report|reported|befunddatum|berichtsdatum|date du rapport|data rapporto/iu,
  ],
  [
    'reportId',
    /report (?:no|number|id|ref)|befund(?:nr|nummer)|auftrag|n° (?:de )?rapport|lab(?:oratory)? (?:no|ref|number)|job/iu,
  ],
  ['status', /status|stand|statut|stato|estado/iu],
  ['temperatureC', /temp/iu],
  [
    'label',
    /label|sample (?:id|no|number|code|ref)|^sample$|^id$|proben?(?:nummer|nr|bezeichnung|code|id)|barcode|étiquette|échantillon|campione|muestra|monster/iu,
  ],
  ['method', /method|methode|méthode|metodo|verfahren|analysis$/iu],
  ['target', /parameter|analyte|organism|paramètre|paramet/iu],
  ['serogroup', /serogr|sérogr|sierogr|\bsg\b/iu],
  ['species', /species|spezies|espèce|specie|soort|\bart\b/iu],
  ['draw', /draw|flush|^set$|ablauf|jet/iu],
  ['sampleKind', /sample (?:type|kind)|^type$|probenart|type d.échantillon|matrix|matrice/iu],
  ['circuit', /circuit|hot.*cold|cold.*hot|^system$|wasserart/iu],
  ['group', /^set$|group|campaign|round|serie|campagne/iu],
  [
    'place',
    /place|location|outlet|point|site|room|ort$|entnahmestelle|stelle|zapfstelle|lieu|emplacement|luogo|lugar|plaats/iu,
  ],
  ['notes', /remark|note|comment|bemerk|remarque|osserva|observa|opmerk/iu],
]

const RESULT_HEADINGS =
  /legionella|result|ergebnis|résultat|risultato|resultado|resultaat|\bcount\b|konzentration|concentration|befund$|\bcfu\b|\bkbe\b|\bufc\b|\bkve\b/iu
const PCR_WORDS = /pcr|genom|\bgc\b|\bgu\b|\bgec\b|copies|kopien/iu
const MPN_WORDS = /\bmpn\b|\bnpp\b|most probable/iu

/** A first reading of what the columns hold, for a person to check: from the headings and from what stands below them. */
export function guessMapping(table: RawTable): Mapping {
  const results = resultColumns(table)
  const taken = new Set(results.map(({ column }) => column))
  const columns: Record<string, string> = {}
  for (const role of columnRoles) {
    const pattern = ROLE_WORDS.find(([each]) => each === role)?.[1]
    const header = table.headers.find((each) => !taken.has(each) && pattern !== undefined && pattern.test(spaced(each)))
    if (header === undefined) continue
    columns[role] = header
    if (role !== 'draw' && role !== 'group') taken.add(header)
  }
  const labelFrom = columns['label'] === undefined ? distinctColumns(table, results) : []
  const named = labelFrom.length === 0 ? {} : { labelFrom }
  return { columns, decimal: guessDecimal(table), dateOrder: guessDateOrder(table), results, ...named }
}

/** `Lp_cfu_L` → `Lp cfu L`, so that words have edges. */
function spaced(header: string): string {
  return header.replace(/_/g, ' ')
}

function resultColumns(table: RawTable): NonNullable<Mapping['results']> {
  const named = table.headers.filter((header) => readUnit(header).kind !== 'none' && !isLimit(header))
  const headers =
    named.length > 0
      ? named
      : table.headers.filter((header) => RESULT_HEADINGS.test(spaced(header)) && looksLikeResults(table, header))
  return headers.map((column) => {
    const unit = readUnit(column)
    return { column, method: methodOf(column), ...(unit.kind === 'unit' ? { unit: unit.unit } : {}) }
  })
}

function isLimit(header: string): boolean {
  return ROLE_WORDS.some(([role, pattern]) => role === 'limit' && pattern.test(spaced(header)))
}

function methodOf(header: string): Method {
  const unit = readUnit(header)
  if (PCR_WORDS.test(spaced(header)) || (unit.kind === 'unit' && familyOf(unit.unit) === 'GU')) return 'PCR'
  if (unit.kind === 'doubtful') return 'culture'
  return MPN_WORDS.test(spaced(header)) ? 'most probable number' : 'culture'
}

function looksLikeResults(table: RawTable, header: string): boolean {
  const texts = textsOf(table, header)
  const fits = texts.filter(
    (text) =>
      /^[\d.,\s]+$/.test(text) ||
      resultWord(text) !== undefined ||
      comparatorOf(text) !== undefined ||
      /^\d/.test(text),
  )
  return texts.length > 0 && fits.length >= texts.length / 2
}

const SAMPLE_ROWS = 500

function textsOf(table: RawTable, header: string): string[] {
  const index = table.headers.indexOf(header)
  return table.rows
    .slice(0, SAMPLE_ROWS)
    .map(({ cells }) => cellText(cells[index]))
    .filter((text) => text !== '')
}

/** Without a label column: one column, or two together, that tell every row from every other. */
function distinctColumns(table: RawTable, results: NonNullable<Mapping['results']>): string[] {
  const measured = new Set(results.map(({ column }) => column))
  const headers = table.headers
    .filter((header) => !measured.has(header) && !/temp/iu.test(header))
    .slice(0, WIDEST_SEARCH)
  const single = headers.find((header) => isDistinct(table, [header]))
  if (single !== undefined) return [single]
  const pairs = headers.flatMap((a, index) => headers.slice(index + 1).map((b) => [a, b]))
  return pairs.find((pair) => isDistinct(table, pair)) ?? []
}

const WIDEST_SEARCH = 12

function isDistinct(table: RawTable, headers: readonly string[]): boolean {
  const indexes = headers.map((header) => table.headers.indexOf(header))
  const keys = table.rows.map(({ cells }) => indexes.map((index) => cellText(cells[index])))
  if (keys.some((parts) => parts.includes(''))) return false
  return new Set(keys.map((parts) => JSON.stringify(parts))).size === keys.length
}

function guessDecimal(table: RawTable): Mapping['decimal'] {
  const texts = table.headers.flatMap((header) => textsOf(table, header))
  const count = (pattern: RegExp) => texts.filter((text) => pattern.test(text)).length
  return count(/^[<>≤≥~]?\s*\d+,\d{1,2}(?!\d)/) > count(/^[<>≤≥~]?\s*\d+\.\d{1,2}(?![\d.])/) ? 'comma' : 'point'
}

function guessDateOrder(table: RawTable): Mapping['dateOrder'] {
  const texts = table.headers
    .flatMap((header) => textsOf(table, header))
    .map((text) => /^(\d{1,2})[-/.](\d{1,2})[-/.](?:\d{4}|\d{2})\b/.exec(text))
    .filter((found) => found !== null)
  if (texts.length === 0) return 'year-month-day'
  return texts.some((found) => Number(found[2]) > 12) ? 'month-day-year' : 'day-month-year'
}
