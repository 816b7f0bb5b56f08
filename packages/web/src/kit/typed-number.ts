export type TypedNumber =
  | { readonly kind: 'empty' }
  | { readonly kind: 'number'; readonly value: number; readonly decimals: number }
  | { readonly kind: 'unreadable'; readonly issue: string }

const PLAIN = /^[+-]?(\d+([.,]\d*)?|[.,]\d+)$/

/**
 * Reads a number as a person types it: point or comma as the decimal mark, a minus sign of either kind, no thousands marks (they
 * would be ambiguous). Also tells how many decimals were typed, which is the precision the value was given in.
 */
export function readTypedNumber(text: string): TypedNumber {
  const trimmed = text.trim().replace('−', '-')
  if (trimmed === '') return { kind: 'empty' }
  if (!PLAIN.test(trimmed)) return { kind: 'unreadable', issue: issueFor(trimmed) }
  const plain = trimmed.replace(',', '.')
  return { kind: 'number', value: Number(plain), decimals: plain.split('.')[1]?.length ?? 0 }
}

function issueFor(text: string): string {
  if (/^[<>]/.test(text)) return 'Type the number alone; “less than” and “more than” are chosen beside it.'
  if (/\d[.,]\d+[.,]\d/.test(text) || /\d\s\d/.test(text))
    return 'Type the number without marks between thousands, for example 1250 or 1250.5.'
  return `“${text}” is not a number. Type digits, for example 44.6 or 44,6.`
}
