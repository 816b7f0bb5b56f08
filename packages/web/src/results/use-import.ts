import { acceptedBefore } from '@rillmark/casebook/results/accepted-before.ts'
import { acceptResults, type RowDecision } from '@rillmark/casebook/results/accept.ts'
import type { Mapping } from '@rillmark/casebook/results/kinds.ts'
import type { RawTable } from '@rillmark/casebook/results/raw-table.ts'
import type { Review } from '@rillmark/casebook/results/review.ts'
import type { ResultsState } from '@rillmark/casebook/results/state.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { proposeMapping } from '@rillmark/exchange/results/remembered-mapping.ts'
import { useRef, useState } from 'react'
import { useHold } from '../offline/use-hold.ts'
import { useInvestigation } from '../store/investigation.tsx'
import { type ReadFile, readFile } from './read-file.ts'
import { useReview } from './use-review.ts'
import { writeImport } from './write-import.ts'

/** A file in hand: read, mapped, not yet accepted. */
export interface FileInHand {
  readonly name: string
  readonly sha256: string
  readonly tables: readonly RawTable[]
  readonly sheet: number
  readonly mapping: Mapping
  readonly rememberedFrom: string | undefined
  /** when and by whom the same file was accepted before, if it was */
  readonly before: string | undefined
  readonly laboratory: string
  readonly takenBy: string
  readonly relabelled: ReadonlyMap<number, string>
  readonly decisions: ReadonlyMap<number, RowDecision>
}

export interface Import {
  readonly busy: { readonly words: string; readonly fraction?: number; readonly stop?: () => void } | undefined
  readonly file: FileInHand | undefined
  readonly table: RawTable | undefined
  readonly review: Review | undefined
  /** what speaks against the file, its mapping, or accepting it */
  readonly issues: readonly Issue[]
  readonly open: (file: File) => void
  readonly change: (change: Partial<FileInHand>) => void
  readonly chooseSheet: (sheet: number) => void
  readonly decide: (rows: readonly number[], decision: RowDecision | undefined) => void
  readonly accept: () => Promise<number | undefined>
  readonly drop: () => void
}

/** The way of a file into the record: read apart, mapped, reviewed again with every change, accepted as a whole. */
export function useImport(): Import {
  const { state, version, propose } = useInvestigation()
  const [file, setFile] = useState<FileInHand>()
  const [busy, setBusy] = useState<Import['busy']>()
  const [issues, setIssues] = useState<readonly Issue[]>([])
  /** the record as it stood when writing began: what is being written is not reviewed again entry by entry */
  const [heldAt, setHeldAt] = useState<number>()
  const stopper = useRef<AbortController>(undefined)
  const table = file?.tables[file.sheet]
  const { review, wrong } = useReview(file, heldAt ?? version)
  useHold('a file is read in', file !== undefined || busy !== undefined)

  const change = (next: Partial<FileInHand>): void => setFile((now) => (now === undefined ? now : { ...now, ...next }))
  const open = (picked: File): void => {
    stopper.current = new AbortController()
    const { signal } = stopper.current
    setIssues([])
    setBusy({ words: `Reading ${picked.name}`, stop: () => stopper.current?.abort() })
    void readFile(picked, signal)
      .then((read) => {
        const opened = openedFile(read, state.results)
        setIssues(opened.issues)
        setFile(opened.file)
      })
      .finally(() => setBusy(undefined))
  }
  const accept = async (): Promise<number | undefined> => {
    if (file === undefined || review === undefined) return undefined
    const accepted = acceptResults({ review, decisions: file.decisions, file, mapping: file.mapping })
    if (!accepted.ok) return void setIssues(accepted.issues)
    setIssues([])
    setHeldAt(version)
    setBusy({ words: 'Writing the results', fraction: 0 })
    const written = await writeImport(accepted.value, {
      state,
      propose,
      onProgress: (fraction) => setBusy({ words: 'Writing the results', fraction }),
    })
    setBusy(undefined)
    setHeldAt(undefined)
    if (!written.ok) return void setIssues(written.issues)
    setFile(undefined)
    return written.count
  }
  const chooseSheet = (sheet: number): void =>
    change({
      sheet,
      decisions: new Map(),
      relabelled: new Map(),
      ...mappingFor(file?.tables[sheet], { results: state.results, fileName: file?.name ?? '' }),
    })
  const decide: Import['decide'] = (numbers, decision) => {
    setIssues([])
    setFile((now) => (now === undefined ? now : { ...now, decisions: decided(now.decisions, { numbers, decision }) }))
  }
  const drop = (): void => {
    setFile(undefined)
    setIssues([])
  }
  return { busy, file, table, review, issues: [...wrong, ...issues], open, change, chooseSheet, decide, accept, drop }
}

/** A file just read, with its columns guessed or remembered; a file accepted before is said so. */
function openedFile(
  { name, sha256, reading }: ReadFile,
  results: ResultsState,
): { file: FileInHand | undefined; issues: readonly Issue[] } {
  if (!reading.ok) return { file: undefined, issues: reading.issues }
  const { tables } = reading
  const [first] = tables
  if (first === undefined) return { file: undefined, issues: [] }
  const { mapping, from } = proposeMapping(first, { results, fileName: name })
  const { fileName: rememberedFrom, laboratory = '' } = from ?? {}
  const settled = { takenBy: '', relabelled: new Map<number, string>(), decisions: new Map<number, RowDecision>() }
  const before = acceptedBefore(results, sha256)
  const file = { name, sha256, tables, sheet: 0, mapping, rememberedFrom, laboratory, before, ...settled }
  return { file, issues: [] }
}

function mappingFor(table: RawTable | undefined, earlier: Parameters<typeof proposeMapping>[1]): Partial<FileInHand> {
  return table === undefined ? {} : { mapping: proposeMapping(table, earlier).mapping }
}

function decided(
  before: ReadonlyMap<number, RowDecision>,
  { numbers, decision }: { numbers: readonly number[]; decision: RowDecision | undefined },
): Map<number, RowDecision> {
  const after = new Map(before)
  for (const row of numbers) {
    if (decision === undefined) after.delete(row)
    else after.set(row, decision)
  }
  return after
}
