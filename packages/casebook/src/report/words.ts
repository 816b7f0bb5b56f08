import type { Block, Column, Row, Said } from './model.ts'

/** Words joined as a sentence lists them. */
export function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`
}

export const heading = (text: string): Block => ({ block: 'heading', text })

/** Computed from the record. */
export const told = (text: string, more: Omit<Said, 'text'> = {}): Block => ({
  block: 'text',
  by: 'record',
  text,
  ...more,
})

/** Typed by a person. */
export const written = (text: string, entries: readonly number[]): Block => ({
  block: 'text',
  by: 'author',
  text,
  entries,
})

/** A table, or one line where it would be empty. */
export function table(given: {
  caption: string
  columns: readonly Column[]
  rows: readonly Row[]
  note?: string | undefined
  none: string
}): Block {
  const { caption, columns, rows, note, none } = given
  if (rows.length === 0) return told(none)
  return { block: 'table', caption, columns, rows, ...(note === undefined ? {} : { note }) }
}

export const column = (name: string, width: number): Column => ({ name, width })
export const numberColumn = (name: string, width: number): Column => ({ name, width, align: 'right' })

/** `2026-02-11` as `February 2026`, which names no day. */
export function monthWords(date: string): string {
  const [year = '', month = ''] = date.split('-')
  return `${MONTHS[Number(month) - 1] ?? month} ${year}`
}

const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
]
