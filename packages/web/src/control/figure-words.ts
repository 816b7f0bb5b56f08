const DIGITS = 3
const MINUTE_S = 60

/** A result's figure in words: three figures, its unit, long times in minutes; undefined for what is no single figure. */
export function figureWords(value: unknown, unit: string | undefined): string | undefined {
  if (typeof value === 'string') return value
  if (typeof value === 'object' && value !== null && 'lower' in value && 'upper' in value) {
    const [lower, upper] = [figureWords(value.lower, undefined), figureWords(value.upper, unit)]
    return lower === undefined || upper === undefined ? undefined : `${lower} to ${upper}`
  }
  if (typeof value !== 'number') return undefined
  if (unit === 's' && value >= 2 * MINUTE_S) return `${rounded(value / MINUTE_S)} min`
  if (unit === 'kg' && Math.abs(value) < 1) return `${rounded(value * 1000)} g`
  return unit === undefined || unit === '' ? rounded(value) : `${rounded(value)} ${unit}`
}

const rounded = (value: number): string =>
  Math.abs(value) >= 10 ** DIGITS ? String(Math.round(value)) : String(Number(value.toPrecision(DIGITS)))
