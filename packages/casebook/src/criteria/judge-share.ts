import type { CriteriaSet, ShareBand } from './criteria-set.ts'

export type ShareJudgement =
  | { readonly kind: 'band'; readonly band: ShareBand; readonly fraction: number; readonly of: string }
  | { readonly kind: 'not-applicable'; readonly reason: string }

/**
 * The band of the share of positive samples, where a jurisdiction judges by share.
 *
 * Why: some rules ask how much of a building is colonised rather than how much grew in one bottle. Samples that can't be read belong in
 * neither number; which samples count is said by the rule's `of`.
 * @param counts.positive samples that count as positive, a whole number of at least 0.
 * @param counts.total interpretable samples, a whole number of at least `positive`.
 * @throws RangeError when the counts are no counts.
 */
export function judgeShare(criteria: CriteriaSet, counts: { positive: number; total: number }): ShareJudgement {
  const { positive, total } = counts
  if (!Number.isInteger(positive) || !Number.isInteger(total) || positive < 0 || positive > total)
    throw new RangeError(
      `Cannot judge a share because 0 ≤ positive ≤ total must hold in whole numbers: got ${positive} of ${total}`,
    )
  const rule = criteria.share
  if (rule === undefined)
    return { kind: 'not-applicable', reason: 'this criteria set has no rule on the share of positives' }
  if (total === 0) return { kind: 'not-applicable', reason: 'no interpretable sample yet' }
  const band = rule.bands.findLast(({ from }) => isBeyond({ positive, total }, from))
  if (band === undefined) return { kind: 'not-applicable', reason: 'the rule has no band for this share' }
  return { kind: 'band', band, fraction: positive / total, of: rule.of }
}

/** Compared as products, so that 3 of 10 reaches 0.3 exactly. */
function isBeyond(counts: { positive: number; total: number }, from: ShareBand['from']): boolean {
  const wanted = Number((from.fraction * counts.total).toPrecision(15))
  return from.kind === 'reaches' ? counts.positive >= wanted : counts.positive > wanted
}
