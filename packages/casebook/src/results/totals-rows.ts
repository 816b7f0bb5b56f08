import { isDetected } from '../units/result-value.ts'
import type { ReadRow } from './read-row.ts'

const TOTAL_WORDS =
  /^(?:(?:sub|grand )?total|sum(?:me)?|gesamt|somme|totale|suma|totaal|n|anzahl|nombre|count|mean|average|mittelwert|median|moyenne|positives?|positive samples)\s*[:=]?$/iu

/** Lines of totals among the samples. */
export function isTotalsRow({ label, place }: ReadRow): boolean {
  return TOTAL_WORDS.test(label.trim()) || (label === '' && TOTAL_WORDS.test((place ?? '').trim()))
}

/** What a line of totals says that the rows do not bear out. A mean or median is not checked. */
export function totalsProblem(total: ReadRow, rows: readonly ReadRow[]): string | undefined {
  if (/mean|average|mittel|moyenne|median/iu.test(`${total.label} ${total.place ?? ''}`)) return undefined
  for (const [index, { cell }] of total.results.entries()) {
    const stated =
      cell.kind === 'number'
        ? cell.value
        : cell.kind === 'text'
          ? Number(cell.text.trim().replace(',', '.'))
          : Number.NaN
    if (!Number.isFinite(stated)) continue
    const readings = rows.flatMap(({ results }) => results[index]?.reading ?? []).filter(({ kind }) => kind !== 'empty')
    const values = readings.flatMap((reading) => (reading.kind === 'value' ? [reading.value] : []))
    const sum = values.reduce((all, value) => all + (value.kind === 'count' ? value.value : 0), 0)
    const positive = values.filter(isDetected).length
    if (![readings.length, sum, positive].some((each) => Math.abs(each - stated) < 1e-9 * Math.max(1, each)))
      return `row ${total.row} states ${stated}, but the file has ${readings.length} results, ${positive} of them positive, summing to ${sum}`
  }
  return undefined
}
