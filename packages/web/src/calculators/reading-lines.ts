import { plainText } from '@rillmark/casebook/units/scales.ts'
import type { Draft } from '../form/draft.ts'
import { isRecord, jsonOf } from './json-draft.ts'
import { typedFigure } from './typed-cell.ts'
import type { TypedText } from './typed-text.ts'

/** Readings from one line each: `20`, `<10`, `>300`, `30-40`. */
export function readingsOfLines(text: string): TypedText {
  const lines = text.split(/\r?\n/).map((line, index) => ({ number: index + 1, line: line.trim() }))
  const read = lines.filter(({ line }) => line !== '').map(({ number, line }) => ({ number, ...readingOf(line) }))
  const problems = read.flatMap(({ number, ...each }) => ('problem' in each ? [`Line ${number}: ${each.problem}`] : []))
  const values = read.flatMap((each) => ('json' in each ? [each.json] : []))
  const open = values.filter((json) => json.startsWith('{')).length
  return {
    drafts: { values: problems.length === 0 ? values : [] },
    problems,
    summary: `${values.length} read, ${open} of them below, above or between limits`,
  }
}

/** The lines that stand for readings. */
export function linesOfReadings(drafts: readonly Draft[]): string {
  return drafts
    .map((draft) => lineOf(jsonOf(draft)))
    .filter((line) => line !== '')
    .join('\n')
}

const FIGURE = String.raw`([^<>≤≥]*?\d[^<>≤≥]*?)`
const BELOW = new RegExp(`^[<≤]=?\\s*${FIGURE}$`)
const ABOVE = new RegExp(`^[>≥]=?\\s*${FIGURE}$`)
const BETWEEN = new RegExp(`^${FIGURE}\\s*(?<!\\de)(?:-|–|−|\\bto\\b)\\s*${FIGURE}$`, 'i')

function readingOf(line: string): { readonly json: string } | { readonly problem: string } {
  const plain = typedFigure(line)
  if ('value' in plain) return { json: JSON.stringify(plain.value) }
  const below = BELOW.exec(line)?.[1]
  if (below !== undefined) return reading([below], ([limit]) => ({ below: limit }))
  const above = ABOVE.exec(line)?.[1]
  if (above !== undefined) return reading([above], ([limit]) => ({ above: limit }))
  const [, low, high] = BETWEEN.exec(line) ?? []
  if (low !== undefined && high !== undefined) return reading([low, high], (between) => ({ between }))
  return { problem: plain.doubtful ? plain.problem : `“${line}” is no reading such as 20, <10, >300 or 30-40.` }
}

function reading(
  parts: readonly string[],
  made: (values: readonly number[]) => unknown,
): { readonly json: string } | { readonly problem: string } {
  const read = parts.map((part) => typedFigure(part.trim()))
  const problem = read.find((each) => 'problem' in each)
  if (problem !== undefined && 'problem' in problem) return { problem: problem.problem }
  return { json: JSON.stringify(made(read.flatMap((each) => ('value' in each ? [each.value] : [])))) }
}

function lineOf(value: unknown): string {
  if (!isRecord(value)) return words(value)
  const { below, above, between } = value
  if (Array.isArray(between)) return between.map(words).join('-')
  return below === undefined ? `>${words(above)}` : `<${words(below)}`
}

const words = (value: unknown): string => (typeof value === 'number' ? plainText(value) : String(value ?? ''))
