import { acceptResults, type RowDecision } from '@rillmark/casebook/results/accept.ts'
import type { Mapping } from '@rillmark/casebook/results/kinds.ts'
import type { RawTable } from '@rillmark/casebook/results/raw-table.ts'
import { type Review, reviewResults } from '@rillmark/casebook/results/review.ts'
import { type Issue, issue } from '@rillmark/casebook/entry/issue.ts'
import { mappingIssues, readRows } from '@rillmark/exchange/results/read-rows.ts'
import { proposeMapping } from '@rillmark/exchange/results/remembered-mapping.ts'
import { useDeferredValue, useMemo, useRef, useState } from 'react'
import { useInvestigation } from '../store/investigation.tsx'
import { readFile } from './read-file.ts'
import { writeImport } from './write-import.ts'

/** A file in hand: read, mapped, not yet accepted. */
export interface FileInHand {
  readonly name: string
  readonly sha256: string
  readonly tables: readonly RawTable[]
  readonly sheet: number
  readonly mapping: Mapping
  readonly rememberedFrom: string | undefined
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

const NONE: ReadonlyMap<number, string> = new Map()

/** The way of a file into the record: read apart, mapped, reviewed again with every change, accepted as a whole. */
export function useImport(): Import {
  const { state, version, propose } = useInvestigation()
  const [file, setFile] = useState<FileInHand>()
  const [busy, setBusy] = useState<Import['busy']>()
  const [issues, setIssues] = useState<readonly Issue[]>([])
  /** the record as it stood when writing began: what is being written is not reviewed again entry by entry */
  const [heldAt, setHeldAt] = useState<number>()
  const asOf = heldAt ?? version
  const stopper = useRef<AbortController>(undefined)
  const table = file?.tables[file.sheet]
  const settled = useDeferredValue(file)
  const wrong = useMemo(
    () => (table === undefined || file === undefined ? [] : mappingIssues(table, file.mapping)),
    [table, file],
  )
  const from = settled?.tables[settled.sheet]
  const mapping = settled?.mapping
  const rows = useMemo(
    () =>
      from === undefined || mapping === undefined || mappingIssues(from, mapping).length > 0
        ? undefined
        : readRows(from, mapping),
    [from, mapping],
  )
  const { laboratory = '', takenBy = '', relabelled = NONE } = settled ?? {}
  const review = useMemo(() => {
    if (rows === undefined) return undefined
    const others = takenBy.trim() === '' ? {} : { takenBy: takenBy.trim() }
    return reviewResults({ state, rows, laboratory: laboratory.trim(), relabelled, ...others })
    // oxlint-disable-next-line react-hooks/exhaustive-deps -- the state is extended in place; the version tells when
  }, [asOf, rows, laboratory, takenBy, relabelled])

  const change = (next: Partial<FileInHand>): void => setFile((now) => (now === undefined ? now : { ...now, ...next }))
  const open = (picked: File): void => {
    stopper.current = new AbortController()
    const { signal } = stopper.current
    setIssues([])
    setBusy({ words: `Reading ${picked.name}`, stop: () => stopper.current?.abort() })
    void readFile(picked, signal)
      .then(({ name, sha256, reading }) => {
        const [first] = reading.ok ? reading.tables : []
        if (!reading.ok || first === undefined) return setIssues(reading.ok ? [] : reading.issues)
        const seen = state.results.imports.find(({ body }) => body.sha256 === sha256)
        if (seen !== undefined)
          setIssues([
            issue('file', {
              expected: 'a file not yet accepted',
              received: `the same bytes as ${seen.body.fileName}, accepted before`,
            }),
          ])
        const proposed = proposeMapping(first, { results: state.results, fileName: name })
        setFile({
          name,
          sha256,
          tables: reading.tables,
          sheet: 0,
          mapping: proposed.mapping,
          rememberedFrom: proposed.from?.fileName,
          laboratory: proposed.from?.laboratory ?? '',
          takenBy: '',
          relabelled: new Map(),
          decisions: new Map(),
        })
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
  return {
    busy,
    file,
    table,
    review,
    issues: [...wrong, ...issues],
    open,
    change,
    chooseSheet: (sheet) =>
      change({
        sheet,
        decisions: new Map(),
        relabelled: new Map(),
        ...mappingFor(file?.tables[sheet], { results: state.results, fileName: file?.name ?? '' }),
      }),
    decide: (numbers, decision) => {
      setIssues([])
      setFile((now) => (now === undefined ? now : { ...now, decisions: decided(now.decisions, { numbers, decision }) }))
    },
    accept,
    drop: () => {
      setFile(undefined)
      setIssues([])
    },
  }
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
