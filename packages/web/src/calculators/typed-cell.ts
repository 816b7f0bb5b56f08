import { plainText } from '@rillmark/casebook/units/scales.ts'
import { readNumber } from '@rillmark/exchange/results/read-number.ts'
import type { Draft } from '../form/draft.ts'
import type { FieldSpec } from '../form/field-spec.ts'
import { choiceWords } from '../form/field-words.ts'

/** What is typed or pasted in one place of a table, as the draft of its field; or why it can't be told, to stand behind the place. */
export type TypedCell = { readonly draft: Draft } | { readonly problem: string }

/** A number with a point or a comma as its decimal mark and marks between thousands, where only one reading is possible. */
export function typedFigure(
  text: string,
): { readonly value: number } | { readonly problem: string; readonly doubtful: boolean } {
  const read = readNumber(text.replace('−', '-'), 'point')
  if (read.kind === 'no number') return { problem: `“${text}” is not a number.`, doubtful: false }
  if (read.kind === 'number' || read.other === undefined) return { value: read.value }
  return {
    problem: `“${text}” can be ${read.value} or ${read.other}: leave out marks between thousands.`,
    doubtful: true,
  }
}

const YES = /^(yes|y|1|x|true)$/i
const NO = /^(no|n|0|false)$/i

/** One cell of a column. */
export function typedCell(spec: FieldSpec, text: string): TypedCell {
  switch (spec.kind) {
    case 'number': {
      const read = text === '' ? undefined : typedFigure(text)
      if (read === undefined) return { draft: '' }
      return 'problem' in read ? read : { draft: plainText(read.value) }
    }
    case 'flag':
      if (YES.test(text)) return { draft: true }
      return NO.test(text) ? { draft: false } : { problem: `yes or no is needed${received(text)}.` }
    case 'choice': {
      const choice = spec.choices.find((id) => [id, choiceWords(id)].includes(text.toLowerCase()))
      if (choice !== undefined || text === '') return { draft: choice ?? '' }
      return { problem: `“${text}” is none of ${spec.choices.map(choiceWords).join(', ')}.` }
    }
    case 'list':
      return {
        draft: text
          .split(',')
          .map((part) => part.trim())
          .filter((part) => part !== ''),
      }
    default:
      return { draft: text }
  }
}

const received = (text: string): string => (text === '' ? '' : `, not “${text}”`)

/** How a draft reads in a cell. */
export function cellWords(spec: FieldSpec, draft: Draft | undefined): string {
  if (spec.kind === 'flag') return draft === true ? 'yes' : 'no'
  if (Array.isArray(draft)) return draft.join(', ')
  const text = typeof draft === 'string' ? draft : ''
  return spec.kind === 'choice' && text !== '' ? choiceWords(text) : text
}

/** A figure under a name of the user's own, as JSON; yes and no are 1 and 0. */
export function figureJson(text: string): { readonly draft: string } | { readonly problem: string } {
  if (/^(yes|y)$/i.test(text)) return { draft: '1' }
  if (/^(no|n)$/i.test(text)) return { draft: '0' }
  const read = typedFigure(text)
  return 'problem' in read ? read : { draft: String(read.value) }
}
