import type { CriteriaBand, CriteriaSet } from '../criteria/criteria-set.ts'
import { judgeShare, type ShareJudgement } from '../criteria/judge-share.ts'
import type { SampleRow } from './sample-rows.ts'

export interface BandLine {
  readonly band: CriteriaBand
  readonly labels: readonly string[]
}

/** Where the results stand in the chosen set: by band, between bands, outside the set, each with its samples. */
export interface BandCounts {
  readonly bands: readonly BandLine[]
  /** results that could fall into several bands, with why */
  readonly undecided: readonly { readonly reason: string; readonly labels: readonly string[] }[]
  /** results the set does not judge, with why */
  readonly outside: readonly { readonly reason: string; readonly labels: readonly string[] }[]
  readonly caveats: readonly string[]
  readonly share: { readonly judgement: ShareJudgement; readonly positive: number; readonly total: number } | undefined
}

export function bandCounts(rows: readonly SampleRow[], set: CriteriaSet): BandCounts {
  const byBand = new Map<string, { band: CriteriaBand; labels: string[] }>()
  const scale = set.scales.find(({ water }) => water === 'potable')
  for (const band of scale?.bands ?? []) byBand.set(band.id, { band, labels: [] })
  const undecided = new Map<string, string[]>()
  const outside = new Map<string, string[]>()
  const caveats = new Set<string>()
  for (const { label, results } of rows) {
    for (const { judgement } of results) {
      if (judgement === undefined) continue
      if (judgement.kind !== 'not-applicable') for (const caveat of judgement.caveats) caveats.add(caveat)
      if (judgement.kind === 'band') byBand.get(judgement.band.id)?.labels.push(label)
      else {
        const [groups, reason] =
          judgement.kind === 'undecided' ? [undecided, judgement.reason] : [outside, judgement.reason]
        groups.set(reason, [...(groups.get(reason) ?? []), label])
      }
    }
  }
  const lines = [...byBand.values()]
  return {
    bands: lines,
    undecided: listed(undecided),
    outside: listed(outside),
    caveats: [...caveats],
    share: shareOf(rows, { set, lines }),
  }
}

function shareOf(
  rows: readonly SampleRow[],
  { set, lines }: { set: CriteriaSet; lines: readonly BandLine[] },
): BandCounts['share'] {
  if (set.share === undefined) return undefined
  const readable = rows.filter(
    ({ medium, sampleKind, outcome }) =>
      medium === 'water' && sampleKind !== 'duplicate' && (outcome === 'positive' || outcome === 'negative'),
  )
  const { ofBand } = set.share
  const inBand = new Set(lines.find(({ band }) => band.id === ofBand)?.labels)
  const positive = readable.filter(({ label, outcome }) =>
    ofBand === undefined ? outcome === 'positive' : inBand.has(label),
  ).length
  if (readable.length === 0) return undefined
  return { judgement: judgeShare(set, { positive, total: readable.length }), positive, total: readable.length }
}

function listed(groups: ReadonlyMap<string, string[]>): { reason: string; labels: string[] }[] {
  return [...groups].map(([reason, labels]) => ({ reason, labels }))
}
