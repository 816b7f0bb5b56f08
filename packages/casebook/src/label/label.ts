import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import { checkDigits, hasRightCheckDigits } from './check-digits.ts'

/**
 * A sample label: three letters of the investigation, four digits counting its samples, two check digits, as in `MRH-0123-45`.
 *
 * Letters stand only where letters belong and digits only where digits belong, so that a wrong character is either of the wrong kind
 * or caught by the check digits. Letters that read like a digit or like each other (I, L, O, Q, U) are not used.
 */
export interface Label {
  /** Canonical form, written on the bottle and kept in the record. */
  readonly id: string
  readonly prefix: string
  readonly number: number
}

export type LabelReading =
  | { readonly kind: 'ok'; readonly label: Label; readonly readAs: 'typed' | 'corrected'; readonly note?: string }
  | { readonly kind: 'issue'; readonly issue: Issue; readonly advice: string }

export const LABEL_LETTERS = 'ABCDEFGHJKMNPRSTVWXYZ'
const LABEL_NUMBERS = { min: 1, max: 9999 } as const

/**
 * Makes the label of one sample.
 * @param options.prefix three letters of `LABEL_LETTERS`, the same for the whole investigation.
 * @param options.number 1 to 9999, counted up by the caller; every number gives a label, so none is missing from the list.
 * @throws RangeError when the prefix or number cannot be printed.
 * @example makeLabel({ prefix: 'MRH', number: 123 }).id
 */
export function makeLabel(options: { prefix: string; number: number }): Label {
  const { prefix, number } = options
  if (!isLabelPrefix(prefix))
    throw new RangeError(
      `Cannot make a label because the prefix must be three of ${LABEL_LETTERS}: got ${JSON.stringify(prefix)}`,
    )
  if (!Number.isInteger(number) || number < LABEL_NUMBERS.min || number > LABEL_NUMBERS.max)
    throw new RangeError(`Cannot make a label because the number must be a whole number from 1 to 9999: got ${number}`)
  const body = `${prefix}${String(number).padStart(DIGITS, '0')}`
  return labelOf(body + checkDigits(body))
}

/** Whether a text can be the three letters of an investigation. */
export function isLabelPrefix(text: string): boolean {
  return text.length === LETTERS && [...text].every((letter) => LABEL_LETTERS.includes(letter))
}

/**
 * Reads a label that was typed, scanned or copied from a laboratory file.
 *
 * Deliberately accepted: lower case, spaces and any dash; the letter O for the digit 0 and the letters I and L for the digit 1 where a
 * digit belongs (no label has those letters, so the reading is certain; it is reported as `corrected`). Everything else that differs
 * from a printed label is an issue that says what is wrong. Nothing is guessed: a wrong check digit is never repaired.
 */
export function readLabel(text: string): LabelReading {
  const bare = text.normalize('NFKC').toUpperCase().replaceAll(SEPARATORS, '')
  if (bare === '') return refused(text, 'nothing was typed')
  const strange = [...bare].find((character) => !/[0-9A-Z]/.test(character))
  if (strange !== undefined) return refused(text, `"${strange}" is not used on labels`)
  if (bare.length !== LETTERS + DIGITS + CHECKS) return refused(text, lengthAdvice(bare.length))
  const prefix = bare.slice(0, LETTERS)
  if (!isLabelPrefix(prefix)) return refused(text, prefixAdvice(prefix))
  return readDigits(text, { prefix, typed: bare.slice(LETTERS) })
}

const LETTERS = 3
const DIGITS = 4
const CHECKS = 2
const SEPARATORS = /[\s\p{Pd}_\u200b\u2212\ufeff]/gu
const DIGIT_FOR: Readonly<Record<string, string>> = { O: '0', I: '1', L: '1' }

function readDigits(text: string, parts: { prefix: string; typed: string }): LabelReading {
  const digits = [...parts.typed].map((character) => DIGIT_FOR[character] ?? character).join('')
  const letter = [...digits].find((character) => !/\d/.test(character))
  if (letter !== undefined)
    return refused(text, `"${letter}" stands where a digit belongs: after the three letters come six digits`)
  const bare = parts.prefix + digits
  if (!hasRightCheckDigits(bare))
    return refused(text, 'the check digits do not fit: a character is wrong or two are swapped. Read the bottle again')
  if (digits.startsWith('0000')) return refused(text, 'labels are counted from 0001')
  if (digits === parts.typed) return { kind: 'ok', label: labelOf(bare), readAs: 'typed' }
  return {
    kind: 'ok',
    label: labelOf(bare),
    readAs: 'corrected',
    note: 'O was read as 0, and I or L as 1, where a digit belongs',
  }
}

function labelOf(bare: string): Label {
  const number = bare.slice(LETTERS, LETTERS + DIGITS)
  const prefix = bare.slice(0, LETTERS)
  return { id: `${prefix}-${number}-${bare.slice(LETTERS + DIGITS)}`, prefix, number: Number(number) }
}

function refused(text: string, advice: string): LabelReading {
  const expected = `a label such as ${makeLabel({ prefix: 'ABC', number: 1 }).id}: three letters, four digits, two check digits`
  return { kind: 'issue', issue: issue('label', { expected, received: text }), advice }
}

function lengthAdvice(length: number): string {
  const wanted = LETTERS + DIGITS + CHECKS
  return `${length < wanted ? 'too short' : 'too long'}: a label has ${wanted} letters and digits, this has ${length}`
}

function prefixAdvice(prefix: string): string {
  const wrong = [...prefix].find((character) => !LABEL_LETTERS.includes(character)) ?? prefix
  if (/\d/.test(wrong)) return `"${wrong}" stands where a letter belongs: a label starts with three letters`
  return `"${wrong}" is not used on labels, because it is easily mistaken: look again at the first three letters`
}
