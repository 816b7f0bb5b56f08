import {
  type DrawPair,
  drawPairs,
  PATTERN_WORDS,
  pairCounts,
  type PairPattern,
} from '@rillmark/casebook/findings/draw-pairs.ts'
import type { Focus } from '@rillmark/casebook/findings/focus-rows.ts'
import type { SampleRow } from '@rillmark/casebook/findings/sample-rows.ts'
import { type ReactNode, useMemo } from 'react'
import { DataTable } from '../kit/DataTable.tsx'
import { Section } from '../kit/Section.tsx'

/** First draw against flushed at one outlet, by presence; what each pattern fits, and which outlets show it. */
export function PairsPart({
  rows,
  onFocus,
}: {
  readonly rows: readonly SampleRow[]
  readonly onFocus: (focus: Focus) => void
}): ReactNode {
  const pairs = useMemo(() => drawPairs(rows), [rows])
  if (pairs.length === 0) return null
  const counts = pairCounts(pairs)
  const open = pairs.filter(({ pattern }) => pattern === undefined).length
  const patterns = (Object.keys(PATTERN_WORDS) as PairPattern[]).filter((pattern) => counts[pattern] > 0)
  const select = (pattern: string): void =>
    onFocus({ kind: 'samples', words: `First draw and flushed: ${pattern}`, labels: labelsOf(pairs, pattern) })
  return (
    <Section
      title="First draw and flushed"
      aside={open > 0 ? `${open} of ${pairs.length} pairs still open` : `${pairs.length} pairs`}
    >
      <DataTable
        caption="Pairs by what they show"
        captionHidden
        rows={patterns}
        rowId={(pattern) => pattern}
        onSelect={select}
        columns={[
          { id: 'pattern', head: 'Positive', cell: (pattern) => pattern },
          { id: 'count', head: 'Outlets', numeric: true, cell: (pattern) => counts[pattern] },
          { id: 'words', head: 'What it fits', cell: (pattern) => PATTERN_WORDS[pattern] },
        ]}
      />
      <p className="faint">
        Compared by presence only: swab and first flush tell of the fitting and its last metres, and are no
        concentration in the system’s water.
      </p>
    </Section>
  )
}

function labelsOf(pairs: readonly DrawPair[], wanted: string): string[] {
  return pairs.filter(({ pattern }) => pattern === wanted).flatMap(({ first, flushed }) => [first.label, flushed.label])
}
