import { parseEntry } from '@rillmark/casebook/entry/parse-entry.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { addDays, daysBetween } from '@rillmark/science/calendar/iso-date.ts'

/** A date alone, at the head of an instant, or inside a sentence. */
const DATE = /(?<![\d-])\d{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12]\d|3[01])(?![\d-])/g

/** Moves every date and instant of the entries by whole weeks, so that weekdays stay and the example is told from about `to`. */
export function shiftEntries(entries: readonly Entry[], { from, to }: { from: string; to: string }): readonly Entry[] {
  const days = Math.floor(daysBetween(from, to) / 7) * 7
  if (days === 0) return entries
  return entries.map((entry) => {
    const parsed = parseEntry(shifted(entry, days))
    if (!parsed.ok) throw new Error(`The example breaks when moved by ${days} days: ${JSON.stringify(parsed.issues)}`)
    return parsed.entry
  })
}

function shifted(value: unknown, days: number): unknown {
  if (typeof value === 'string') return shiftedText(value, days)
  if (Array.isArray(value)) return value.map((each) => shifted(each, days))
  if (typeof value !== 'object' || value === null) return value
  return Object.fromEntries(Object.entries(value).map(([key, each]) => [key, shifted(each, days)]))
}

function shiftedText(text: string, days: number): string {
  return text.replace(DATE, (date) => addDays(date, days))
}
