import type { Mapping } from '@rillmark/casebook/results/kinds.ts'
import type { Cell } from '@rillmark/casebook/results/raw-table.ts'

/** A date cell, or text with a date in the order this laboratory writes it; undefined where it is none. */
export function readDate(cell: Cell | undefined, order: Mapping['dateOrder']): string | undefined {
  if (cell?.kind === 'date') return cell.date
  if (cell?.kind !== 'text') return undefined
  const iso = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})(?:[T\s].*)?$/.exec(cell.text.trim())
  if (iso !== null) return dateOf({ year: iso[1], month: iso[2], day: iso[3] })
  const short = /^(\d{1,2})[-/. ](\d{1,2})[-/. ](\d{4}|\d{2})(?:\s.*)?$/.exec(cell.text.trim())
  if (short === null) return undefined
  const [, first, second, year = ''] = short
  const full = year.length === 2 ? `20${year}` : year
  return order === 'month-day-year'
    ? dateOf({ year: full, month: first, day: second })
    : dateOf({ year: full, month: second, day: first })
}

function dateOf(parts: {
  year: string | undefined
  month: string | undefined
  day: string | undefined
}): string | undefined {
  const [year, month, day] = [Number(parts.year), Number(parts.month), Number(parts.day)]
  const date = new Date(Date.UTC(year, month - 1, day))
  if (Number.isNaN(date.getTime()) || date.getUTCMonth() !== month - 1 || date.getUTCDate() !== day) return undefined
  return date.toISOString().slice(0, 10)
}

const MONTHS: readonly string[] = [
  'jan',
  'feb',
  'mar|mär|mrz',
  'apr|avr',
  'ma[iy]',
  'jun|juin',
  'jul|juil',
  'aug|aoû',
  'sep',
  'o[ck]t',
  'nov',
  'de[cz]|déc',
]
const DAY_MONTH = new RegExp(`^(\\d{1,2})[-. /]\\s?(${MONTHS.join('|')})\\p{L}*\\.?(?:[-. /]\\s?\\d{2,4})?$`, 'iu')
const MONTH_DAY = new RegExp(`^(${MONTHS.join('|')})\\p{L}*[-. /]\\s?(\\d{1,2})$`, 'iu')

/**
 * The day and month of text that looks like a number a spreadsheet took for a date: `29-Mar`, `3.Feb`, `Feb-22`, `03/02/2022`,
 * `2022-02-03`. A number such as 29.3 is not one.
 */
export function dateLookalike(text: string): { day: number; month: number } | undefined {
  const bare = text.trim()
  const words = DAY_MONTH.exec(bare)
  if (words !== null) return { day: Number(words[1]), month: monthNumber(words[2] ?? '') }
  const reversed = MONTH_DAY.exec(bare)
  if (reversed !== null) return { day: Number(reversed[2]), month: monthNumber(reversed[1] ?? '') }
  const iso = /^\d{4}-(\d{2})-(\d{2})(?:[T\s].*)?$/.exec(bare)
  if (iso !== null) return { day: Number(iso[2]), month: Number(iso[1]) }
  const full = /^(\d{1,2})[/.](\d{1,2})[/.](?:19|20)\d{2}$/.exec(bare)
  return full === null ? undefined : { day: Number(full[1]), month: Number(full[2]) }
}

function monthNumber(word: string): number {
  return MONTHS.findIndex((pattern) => new RegExp(`^(?:${pattern})`, 'iu').test(word)) + 1
}
