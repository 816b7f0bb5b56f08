export type NumberReading =
  | { readonly kind: 'number'; readonly value: number }
  /** two readings are possible: grouped thousands, or the other decimal sign than the file's */
  | { readonly kind: 'doubtful'; readonly value: number; readonly other: number | undefined }
  | { readonly kind: 'no number' }

/**
 * A number as people and machines write it, with the file's decimal sign: 1200, 1 200, 1'200, 1,2·10³, 1.16e+06. A sign that is not the
 * file's decimal sign is doubtful unless it can only be grouping (1.234.567).
 */
export function readNumber(text: string, decimal: 'point' | 'comma'): NumberReading {
  const bare = text.trim().replace(/[\s\u00a0\u202f'’](?=\d{3}(\D|$))/g, '')
  const parts = POWER.exec(bare)
  if (parts === null) return { kind: 'no number' }
  const [, mantissa = '', times, e] = parts
  const exponent = Number(
    (times ?? e ?? '0').replace('−', '-').replace(/[⁰¹²³⁴-⁹]/g, (digit) => String(SUPERSCRIPTS.indexOf(digit))),
  )
  return scaled(readMantissa(mantissa, decimal), exponent)
}

const SUPERSCRIPTS = '⁰¹²³⁴⁵⁶⁷⁸⁹'
const POWER =
  /^([+-]?[\d.,]*\d[\d.,]*)(?:\s*[x×·*]\s*10\s*(?:\^|\*\*)?\s*([+−-]?\d{1,2}|[⁰¹²³⁴-⁹]{1,2})|[eE]([+−-]?\d{1,3}))?$/

function readMantissa(text: string, decimal: 'point' | 'comma'): NumberReading {
  const [own, foreign] = decimal === 'point' ? ['.', ','] : [',', '.']
  const plain = plainNumber(text, { decimal: own, group: foreign })
  if (!text.includes(foreign)) return plain === undefined ? { kind: 'no number' } : { kind: 'number', value: plain }
  const other = plainNumber(text, { decimal: foreign, group: own })
  const certainGroups = text.includes(own) || text.split(foreign).length > 2
  if (plain !== undefined && certainGroups) return { kind: 'number', value: plain }
  if (plain !== undefined) return { kind: 'doubtful', value: plain, other }
  return other === undefined ? { kind: 'no number' } : { kind: 'doubtful', value: other, other: undefined }
}

function plainNumber(text: string, signs: { decimal: string; group: string }): number | undefined {
  const [whole = '', fraction, more] = text.split(signs.decimal)
  if (more !== undefined || (fraction ?? '').includes(signs.group)) return undefined
  const [first = '', ...groups] = whole.split(signs.group)
  if (
    groups.some((group) => group.length !== 3) ||
    (groups.length > 0 && (first.replace(/[+-]/, '').length > 3 || /^[+-]?0*$/.test(first)))
  )
    return undefined
  const value = Number(`${first}${groups.join('')}.${fraction ?? '0'}`)
  return Number.isFinite(value) ? value : undefined
}

function scaled(reading: NumberReading, exponent: number): NumberReading {
  if (exponent === 0 || reading.kind === 'no number') return reading
  const times = (value: number) => Number(`${value}e${exponent}`)
  if (reading.kind === 'number') return finite({ kind: 'number', value: times(reading.value) })
  return finite({
    ...reading,
    value: times(reading.value),
    other: reading.other === undefined ? undefined : times(reading.other),
  })
}

function finite(reading: Exclude<NumberReading, { kind: 'no number' }>): NumberReading {
  return Number.isFinite(reading.value) ? reading : { kind: 'no number' }
}
