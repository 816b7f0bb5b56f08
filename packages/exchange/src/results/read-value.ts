import type { Cell } from '@rillmark/casebook/results/raw-table.ts'
import type { Remark, ValueReading } from '@rillmark/casebook/results/read-row.ts'
import { type ConcentrationUnit, withoutNoise } from '@rillmark/casebook/units/quantity.ts'
import type { ResultValue } from '@rillmark/casebook/units/result-value.ts'
import { dateLookalike } from './read-date.ts'
import { readNumber } from './read-number.ts'
import { readUnit } from './read-unit.ts'
import { comparatorOf, type ResultWord, resultWord } from './result-words.ts'

/** What else the row says about its result. */
export interface ValueContext {
  readonly decimal: 'point' | 'comma'
  readonly unit?: ConcentrationUnit | undefined
  /** detection or quantification limit, in the unit of the row */
  readonly limit?: number | undefined
  readonly volumeMl?: number | undefined
  /** a sign kept in a column of its own */
  readonly qualifier?: string | undefined
}

export interface ValueWithUnit {
  readonly reading: ValueReading
  readonly unit: ConcentrationUnit | undefined
}

/**
 * What one result cell says, as the variant it is. Nothing is repaired silently: whatever is not plain comes with a remark, and where
 * another reading is likely, with that reading as a suggestion.
 */
export function readValue(cell: Cell, context: ValueContext): ValueWithUnit {
  const plain = (reading: ValueReading): ValueWithUnit => ({ reading, unit: context.unit })
  switch (cell.kind) {
    case 'empty':
      return plain(signOnly(context))
    case 'date':
      return plain(
        dateForNumber(
          { day: Number(cell.date.slice(8)), month: Number(cell.date.slice(5, 7)), shown: cell.date },
          context,
        ),
      )
    case 'truth':
      return plain(
        unread(
          'unreadable',
          `"${cell.value ? 'true' : 'false'}" is no result`,
          cell.value ? { kind: 'detected' } : { kind: 'not-detected' },
        ),
      )
    case 'number':
      return plain(numberReading(cell.value, context))
    default:
      return readText(cell.text.trim(), context)
  }
}

function readText(text: string, context: ValueContext): ValueWithUnit {
  const said = readUnit(text)
  const unit = said.kind === 'unit' ? said.unit : context.unit
  const here = { ...context, unit }
  const qualified = context.qualifier !== undefined && /^[\d.,\s]+$/.test(text) ? `${context.qualifier} ${text}` : text
  const word = resultWord(qualified)
  if (word !== undefined) return { unit, reading: wordReading(word, { text: qualified, context: here }) }
  const date = dateLookalike(text)
  if (date !== undefined) return { unit, reading: dateForNumber({ ...date, shown: text }, here) }
  return { unit, reading: quantityReading(qualified, here) }
}

/** "<" alone in a column of signs, the value being in the column of limits. */
function signOnly(context: ValueContext): ValueReading {
  const sign = context.qualifier?.trim()
  if (sign === undefined || sign === '') return { kind: 'empty' }
  if (/^[<≤]/.test(sign)) return underLimit(context)
  const word = resultWord(sign)
  return word === undefined ? { kind: 'empty' } : wordReading(word, { text: sign, context })
}

function wordReading(word: ResultWord, { text, context }: { text: string; context: ValueContext }): ValueReading {
  switch (word) {
    case 'under the limit':
      return underLimit(context)
    case 'not-detected':
      return value(notDetected({ ...context, volumeMl: volumeIn(text, context.decimal) ?? context.volumeMl }))
    case 'too many':
      return value({ kind: 'detected' })
    case 'not-tested':
      return value({ kind: 'not-tested', reason: text.slice(0, 200) })
    default:
      return value({ kind: word })
  }
}

function underLimit({ limit, unit, volumeMl }: ValueContext): ValueReading {
  if (limit !== undefined && unit !== undefined) return value({ kind: 'below', limit, unit })
  return unread(
    'limit missing',
    'below a limit that the file does not state',
    volumeMl === undefined ? { kind: 'not-detected' } : { kind: 'not-detected', volumeMl },
  )
}

function notDetected({ limit, unit, volumeMl }: ValueContext): ResultValue {
  return {
    kind: 'not-detected',
    ...(volumeMl === undefined ? {} : { volumeMl }),
    ...(limit === undefined || unit === undefined ? {} : { limit, unit }),
  }
}

function volumeIn(text: string, decimal: 'point' | 'comma'): number | undefined {
  const found = /(?:in|\/|per|pro|dans|par|en)\s*(\d[\d.,]*)?\s*(ml|l|lit(?:er|re)s?)(?!\p{L})/iu.exec(text)
  if (found === null) return undefined
  const number = found[1] === undefined ? { kind: 'number' as const, value: 1 } : readNumber(found[1], decimal)
  if (number.kind === 'no number' || number.value <= 0) return undefined
  return /^ml$/i.test(found[2] ?? '') ? number.value : number.value * 1000
}

const ABOUT = /^(?:~|≈|ca\.?|circa|about|approx(?:imately)?\.?|est(?:imated)?\.?|etwa|env(?:iron)?\.?)\s*(?=\d)/iu
const NUMBER_HEAD =
  /^[+-]?\d[\d.,\s\u00a0\u202f'’]*(?:[eE][+-]?\d+)?(?:\s*[x×·*]\s*10\s*(?:\^|\*\*)?\s*(?:[+−-]?\d{1,2}|[⁰¹²³⁴-⁹]{1,2}))?/u

function quantityReading(text: string, context: ValueContext): ValueReading {
  const bare = text.replace(ABOUT, '')
  const compared = comparatorOf(bare)
  const quantity = (compared?.rest ?? bare).trim()
  const head = NUMBER_HEAD.exec(quantity)?.[0] ?? ''
  const number = readNumber(head, context.decimal)
  const rest = quantity.slice(head.length).trim()
  if (number.kind === 'no number' || !isUnderstood(rest))
    return unread('unreadable', `"${text.slice(0, 60)}" is not a value this reader knows`)
  const read =
    compared === undefined
      ? numberReading(number.value, context)
      : comparedReading(compared.sign, { limit: number.value, context })
  return number.kind === 'number'
    ? read
    : withDoubt(read, { shown: head.trim(), other: number.other, context, sign: compared?.sign })
}

/** What may stand behind a number: nothing, a unit, or a remark in brackets. */
function isUnderstood(rest: string): boolean {
  return (
    rest === '' ||
    readUnit(rest).kind !== 'none' ||
    /^[([*†].*$/u.test(rest) ||
    /^(?:est\.?|estimated|geschätzt|estimé)$/iu.test(rest)
  )
}

function numberReading(amount: number, context: ValueContext): ValueReading {
  if (context.qualifier !== undefined) {
    const sign = /^\s*([<≤>≥])/.exec(context.qualifier)?.[1]
    if (sign !== undefined) return comparedReading(sign === '<' || sign === '≤' ? '<' : '>', { limit: amount, context })
  }
  if (amount === 0)
    return unread('zero count', 'zero is no count: nothing was found in the volume examined', notDetected(context))
  if (amount < 0) return unread('unreadable', `a count cannot be ${amount}`)
  if (context.unit === undefined) return unread('unit missing', `${amount} without a unit`)
  return value({ kind: 'count', value: withoutNoise(amount), unit: context.unit })
}

function comparedReading(sign: '<' | '>', { limit, context }: { limit: number; context: ValueContext }): ValueReading {
  if (limit <= 0)
    return sign === '>' ? value({ kind: 'detected' }) : unread('unreadable', `less than ${limit} is not possible`)
  if (context.unit === undefined) return unread('unit missing', `${sign} ${limit} without a unit`)
  return value({ kind: sign === '<' ? 'below' : 'above', limit: withoutNoise(limit), unit: context.unit })
}

function withDoubt(
  read: ValueReading,
  doubt: { shown: string; other: number | undefined; context: ValueContext; sign: '<' | '>' | undefined },
): ValueReading {
  if (read.kind === 'empty') return read
  const { shown, other, context, sign } = doubt
  const reading =
    other === undefined
      ? undefined
      : sign === undefined
        ? numberReading(other, context)
        : comparedReading(sign, { limit: other, context })
  const suggestion = reading?.kind === 'value' ? reading.value : undefined
  const words = `"${shown}" in a file whose decimal sign is a ${context.decimal}${other === undefined ? '' : `: it may be ${other}`}`
  return {
    ...read,
    remarks: [
      ...read.remarks,
      suggestion === undefined ? { trap: 'decimal comma', words } : { trap: 'decimal comma', words, suggestion },
    ],
  }
}

function dateForNumber(date: { day: number; month: number; shown: string }, { unit }: ValueContext): ValueReading {
  const was = Number(`${date.day}.${date.month}`)
  const words = `the cell holds the date ${date.shown}; a spreadsheet may have made it of ${was}`
  return unread('date for number', words, unit === undefined ? undefined : { kind: 'count', value: was, unit })
}

function value(read: ResultValue): ValueReading {
  return { kind: 'value', value: read, remarks: [] }
}

function unread(trap: Remark['trap'], words: string, suggestion?: ResultValue): ValueReading {
  return { kind: 'unread', remarks: [suggestion === undefined ? { trap, words } : { trap, words, suggestion }] }
}
