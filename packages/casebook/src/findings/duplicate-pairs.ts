import rule from '@rillmark/reference/findings/duplicates.json' with { type: 'json' }
import { log10Apart, log10SpreadOfCounts } from '@rillmark/science/culture/count-spread.ts'
import { convertConcentration } from '../units/quantity.ts'
import { countInterval } from './count-interval.ts'
import type { RowResult, SampleRow } from './sample-rows.ts'
import { resultWords } from '../units/result-words.ts'

/** A duplicate beside the sample it repeats, where the two disagree by more than counting explains. */
export interface Disagreement {
  readonly first: SampleRow
  readonly duplicate: SampleRow
  readonly differenceLog10: number
  /** what may lie between two bottles of the same water by counting alone, or by the rule of thumb where colonies are not known */
  readonly allowedLog10: number
  readonly coloniesKnown: boolean
  readonly words: string
}

/**
 * Duplicates that disagree strongly with the sample they repeat, method by method. Counting adds (log10 e)²/n to the variance of the
 * log10 of a count of n colonies; two counts may differ by twice the standard deviation of their difference, and never by less than
 * half a log10 before it is said. A result below a limit stands at its limit, as one colony: the difference is at least that.
 * Two bottles are two waters, so this is a remark and no verdict on the laboratory.
 */
export function disagreeingDuplicates(rows: readonly SampleRow[]): Disagreement[] {
  const byLabel = new Map(rows.map((row) => [row.label, row]))
  return rows.flatMap((duplicate) => {
    const first = duplicate.repeats === undefined ? undefined : byLabel.get(duplicate.repeats)
    if (first === undefined) return []
    return duplicate.results.flatMap((b) =>
      first.results
        .filter((a) => a.entry.body.method === b.entry.body.method)
        .flatMap((a) => disagreement({ first, duplicate, a, b }) ?? []),
    )
  })
}

interface Pair {
  readonly first: SampleRow
  readonly duplicate: SampleRow
  readonly a: RowResult
  readonly b: RowResult
}

function disagreement({ first, duplicate, a, b }: Pair): Disagreement | undefined {
  const [one, two] = [placed(a), placed(b)]
  if (one === undefined || two === undefined || (one.limit && two.limit)) return undefined
  const other = convertConcentration({ value: two.value, unit: two.unit }, one.unit)
  if (other.kind === 'refused') return undefined
  // the value that stands at a limit is at most that: only a count above it can disagree
  if ((two.limit && one.value <= other.value) || (one.limit && other.value <= one.value)) return undefined
  const differenceLog10 = log10Apart({ a: one.value, b: other.value })
  const coloniesKnown = one.colonies !== undefined && two.colonies !== undefined
  const allowedLog10 = allowed(one.colonies, two.colonies)
  if (differenceLog10 <= allowedLog10) return undefined
  const words = (result: RowResult): string =>
    resultWords(result.entry.body.value, { method: result.entry.body.method })
  return {
    first,
    duplicate,
    differenceLog10,
    allowedLog10,
    coloniesKnown,
    words: `${first.label} and its duplicate ${duplicate.label} disagree by ${one.limit || two.limit ? 'at least ' : ''}${differenceLog10.toFixed(1)} log10 (${words(a)}; ${words(b)}), ${
      coloniesKnown
        ? `more than counting explains (${allowedLog10.toFixed(1)})`
        : `more than ${allowedLog10.toFixed(1)} (rule of thumb: the colonies are not known)`
    }: rely on neither alone`,
  }
}

/** Spread of the difference of two log10 counts, as far as it must be allowed for. */
function allowed(a: number | undefined, b: number | undefined): number {
  if (a === undefined || b === undefined) return rule.withoutColoniesLog10.value
  return Math.max(rule.leastLog10.value, rule.coverage.value * log10SpreadOfCounts({ a, b }))
}

/** Where a result stands: its count, or its limit. */
function placed({ entry, outcome }: RowResult) {
  const { value } = entry.body
  if (value.kind === 'count' && outcome === 'positive') {
    const colonies = countInterval(entry.body)?.colonies
    return { value: value.value, unit: value.unit, limit: false, colonies }
  }
  if (value.kind !== 'below' && value.kind !== 'not-detected') return undefined
  if (value.limit === undefined || value.unit === undefined) return undefined
  return { value: value.limit, unit: value.unit, limit: true, colonies: 1 }
}
