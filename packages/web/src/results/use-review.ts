import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { type Review, reviewResults } from '@rillmark/casebook/results/review.ts'
import { mappingIssues, readRows } from '@rillmark/exchange/results/read-rows.ts'
import { useDeferredValue, useMemo } from 'react'
import { useInvestigation } from '../store/investigation.tsx'
import type { FileInHand } from './use-import.ts'

const NONE: ReadonlyMap<number, string> = new Map()

/** The review of a file in hand, made again when the file's reading changes or the record has grown; typing goes on meanwhile. */
export function useReview(
  file: FileInHand | undefined,
  asOf: number,
): { review: Review | undefined; wrong: readonly Issue[] } {
  const { state } = useInvestigation()
  const settled = useDeferredValue(file)
  const table = settled?.tables[settled.sheet]
  const mapping = settled?.mapping
  const wrong = useMemo(
    () => (table === undefined || mapping === undefined ? [] : mappingIssues(table, mapping)),
    [table, mapping],
  )
  const rows = useMemo(
    () => (table === undefined || mapping === undefined || wrong.length > 0 ? undefined : readRows(table, mapping)),
    [table, mapping, wrong],
  )
  const { laboratory = '', takenBy = '', relabelled = NONE } = settled ?? {}
  const review = useMemo(() => {
    if (rows === undefined) return undefined
    const others = takenBy.trim() === '' ? {} : { takenBy: takenBy.trim() }
    return reviewResults({ state, rows, laboratory: laboratory.trim(), relabelled, ...others })
    // oxlint-disable-next-line react-hooks/exhaustive-deps -- the state is extended in place; the version tells when
  }, [asOf, rows, laboratory, takenBy, relabelled])
  return { review, wrong }
}
