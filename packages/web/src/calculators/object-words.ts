import { limitWords } from '@rillmark/science/catalogue/answer-words.ts'
import { wordsOfName } from '../form/field-words.ts'
import { lowerFirst } from '../form/label-at.ts'

type Values = Readonly<Record<string, unknown>>
type Words = (value: unknown) => string

/** A value with parts that no field describes: `below 100`, `between 1 and 5`, `1.2 to 3.4`, `(0, 3, 5)`. */
export function objectWords(value: object, words: Words): string {
  if (Array.isArray(value)) return `(${value.map((each) => words(each)).join(', ')})`
  const parts: Values = { ...value }
  if (isLimits(parts)) return limitWords(parts, words)
  return Object.entries(parts)
    .map(
      ([name, inner]) =>
        `${lowerFirst(wordsOfName(name))} ${isPair(inner) ? inner.map(words).join(' and ') : words(inner)}`,
    )
    .join(', ')
}

/** Values under names of the user's own, such as coefficients, as a table with a line for each name; undefined where they are none. */
export function namedTable(value: unknown, words: Words) {
  if (!isValues(value)) return undefined
  const lines = Object.entries(value).flatMap(([name, inner]) => (isValues(inner) ? [{ name, inner }] : []))
  if (lines.length === 0 || lines.length < Object.keys(value).length) return undefined
  const columns = [...new Set(lines.flatMap(({ inner }) => Object.keys(inner)))]
  return {
    columns: [
      { name: '$name', label: 'Name', unit: '', numeric: false },
      ...columns.map((name) => ({ name, label: wordsOfName(name), unit: '', numeric: true })),
    ],
    rows: lines.map(({ name, inner }) => [name, ...columns.map((column) => words(inner[column]))]),
  }
}

const isPair = (value: unknown): value is unknown[] => Array.isArray(value) && value.length === 2

function isLimits(parts: Values): boolean {
  const names = Object.keys(parts)
  return names.length > 0 && names.every((name) => name === 'lower' || name === 'upper')
}

const isValues = (value: unknown): value is Values =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
