import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { checkEntry } from '@rillmark/casebook/rules/check-entry.ts'
import { type Acceptance, type RowDecision, acceptResults } from '@rillmark/casebook/results/accept.ts'
import type { Mapping } from '@rillmark/casebook/results/kinds.ts'
import { type Review, type ReviewedRow, reviewResults } from '@rillmark/casebook/results/review.ts'
import { derive, extend } from '@rillmark/casebook/state/derive.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { readRows } from '@rillmark/exchange/results/read-rows.ts'
import { readTable } from '@rillmark/exchange/results/read-table.ts'
import { proposeMapping } from '@rillmark/exchange/results/remembered-mapping.ts'

export interface PublishedFile {
  readonly name: string
  readonly laboratory: string
  readonly takenBy: string
  /** what a person would set after looking at the guess */
  readonly adjust: (guess: Mapping) => Mapping
  /** what a person would decide about a row that waits */
  readonly decide: (row: ReviewedRow) => RowDecision
}

/** The way of a laboratory's file into the record, through the functions the screen uses: bytes, table, mapping, review, entries, state. */
export async function importPublished(
  file: PublishedFile,
): Promise<{ guess: Mapping; review: Review; state: InvestigationState }> {
  const bytes = readFileSync(new URL(`data/${file.name}`, import.meta.url))
  const read = await readTable({ name: file.name, bytes })
  if (!read.ok) throw new TypeError(JSON.stringify(read.issues))
  const [table] = read.tables
  if (table === undefined) throw new TypeError('no table')
  const state = derive('published', [])
  const guess = proposeMapping(table, { results: state.results }).mapping
  const mapping = file.adjust(guess)
  const review = reviewResults({
    state,
    rows: readRows(table, mapping),
    laboratory: file.laboratory,
    takenBy: file.takenBy,
  })
  const decisions = new Map(
    review.rows.filter((row) => row.state === 'attention').map((row) => [row.row, file.decide(row)]),
  )
  const sha256 = createHash('sha256').update(bytes).digest('hex')
  const accepted = acceptResults({ review, decisions, file: { name: file.name, sha256 }, mapping })
  if (!accepted.ok) throw new TypeError(JSON.stringify(accepted.issues.slice(0, 5)))
  return { guess, review, state: written(state, accepted.value) }
}

function written(before: InvestigationState, acceptance: Acceptance): InvestigationState {
  const { make } = entryMaker('published')
  const imported = make('results.imported', acceptance.imported)
  let state = append(before, imported)
  for (const { kind, body, corrects } of acceptance.entriesOf(imported.id))
    state = append(state, make(kind, body, corrects) as Entry)
  return state
}

function append(state: InvestigationState, entry: Entry): InvestigationState {
  const checked = checkEntry(state, entry)
  if (!checked.ok) throw new TypeError(JSON.stringify(checked.issues))
  return extend(state, [checked.entry])
}
