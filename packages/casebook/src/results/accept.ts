import type { Proposal } from '../entry/draft.ts'
import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import type { BodyOf } from '../entry/kinds.ts'
import { isDetected, type ResultValue } from '../units/result-value.ts'
import type { Mapping } from './kinds.ts'
import type { Review, ReviewedResult, ReviewedRow } from './review.ts'
import { given } from '../entry/given.ts'

/** What a person decided about a row. A row that waits for attention needs one; a matched row is accepted without. */
export type RowDecision =
  | { readonly action: 'accept'; readonly values?: Values; readonly register?: boolean; readonly reason?: string }
  /** the row takes the place of what the record holds; both versions stay visible */
  | { readonly action: 'amend'; readonly reason: string; readonly values?: Values }
  | { readonly action: 'set aside'; readonly reason: string }

/** values settled by a person, by column */
export type Values = Readonly<Record<string, ResultValue>>

export interface AcceptInput {
  readonly review: Review
  readonly decisions: ReadonlyMap<number, RowDecision>
  readonly file: { readonly name: string; readonly sha256: string }
  readonly mapping: Mapping
}

/** The entries an accepted file becomes. The import goes first; the others carry its id. */
export interface Acceptance {
  readonly imported: BodyOf<'results.imported'>
  readonly entriesOf: (importId: string) => readonly (Proposal<'sample.registered'> | Proposal<'result.reported'>)[]
}

/**
 * Turns a reviewed file and a person's decisions into entries: all of it, or the list of what is still open. Every value carries its
 * cell as written; rows set aside are kept in the import with the reason.
 */
export function acceptResults(input: AcceptInput): { ok: true; value: Acceptance } | { ok: false; issues: Issue[] } {
  const { review, decisions, file, mapping } = input
  const settled = review.rows.map((row) => ({ row, decision: decisions.get(row.row) ?? defaultDecision(row) }))
  const issues = settled.flatMap(({ row, decision }) => openIssues(row, decision))
  if (review.laboratory.trim() === '')
    issues.unshift(issue('laboratory', { expected: 'the name of the laboratory', received: review.laboratory }))
  if (issues.length > 0) return { ok: false, issues }
  const taken = settled.flatMap(({ row, decision }) =>
    decision === undefined || decision.action === 'set aside' ? [] : [{ row, decision }],
  )
  const setAside = settled.flatMap(({ row, decision }) =>
    decision?.action === 'set aside' ? [{ row: row.row, reason: decision.reason }] : [],
  )
  const imported = {
    fileName: file.name,
    sha256: file.sha256,
    laboratory: review.laboratory,
    mapping,
    rows: review.rows.length,
    accepted: taken.length,
    setAside,
  }
  return { ok: true, value: { imported, entriesOf: (importId) => entriesOf(taken, { review, importId }) } }
}

type Taken = { readonly row: ReviewedRow; readonly decision: Exclude<RowDecision, { action: 'set aside' }> }

function defaultDecision(row: ReviewedRow): RowDecision | undefined {
  if (row.state === 'matched') return { action: 'accept' }
  if (row.state === 'attention') return undefined
  return { action: 'set aside', reason: row.reasons[0]?.words ?? 'no result in this row' }
}

function openIssues(row: ReviewedRow, decision: RowDecision | undefined): Issue[] {
  const path = `rows.${row.row}`
  if (decision === undefined)
    return [
      issue(path, {
        expected: `a decision: ${row.reasons.find(({ blocks }) => blocks)?.words ?? 'open'}`,
        received: undefined,
      }),
    ]
  if (decision.action === 'set aside')
    return decision.reason.trim() === ''
      ? [issue(path, { expected: 'a reason for setting it aside', received: '' })]
      : []
  const issues = row.results
    .filter(({ column, value }) => value === undefined && decision.values?.[column] === undefined)
    .map(({ column }) =>
      issue(`${path}.${column}`, { expected: 'a value, or the row set aside', received: row.read.asWritten[column] }),
    )
  if (row.label.trim() === '' || row.label.length > 60)
    issues.push(
      issue(`${path}.label`, { expected: 'the label of a sample, at most 60 characters', received: row.label }),
    )
  else if (row.sample === undefined && !row.registers && !(decision.action === 'accept' && decision.register === true))
    issues.push(
      issue(`${path}.label`, {
        expected: 'a sample of this record, or one registered as taken by others',
        received: row.label,
      }),
    )
  if (row.results.length === 0) issues.push(issue(path, { expected: 'at least one result', received: undefined }))
  if (decision.action === 'amend' && row.results.every(({ existing }) => existing === undefined))
    issues.push(issue(path, { expected: 'an earlier result to amend', received: undefined }))
  return issues
}

function entriesOf(
  taken: readonly Taken[],
  { review, importId }: { review: Review; importId: string },
): (Proposal<'sample.registered'> | Proposal<'result.reported'>)[] {
  const registered = new Set<string>()
  return taken.flatMap(({ row, decision }) => {
    const isNew = row.sample === undefined && !registered.has(row.label)
    if (isNew) registered.add(row.label)
    const sample = isNew ? [registration(row, review)] : []
    return [...sample, ...row.results.map((result) => report(result, { row, decision, review, importId }))]
  })
}

function registration(row: ReviewedRow, review: Review): Proposal<'sample.registered'> {
  const { place, circuit, sampleKind, draw, collectedOn, temperatureC, group } = row.read
  return {
    kind: 'sample.registered',
    body: {
      label: row.label,
      takenBy: review.takenBy ?? 'not stated',
      draw: draw ?? 'not stated',
      ...given({ place, circuit, sampleKind, collectedOn, temperatureC, group }),
    },
  }
}

function report(
  result: ReviewedResult,
  context: { row: ReviewedRow; decision: Taken['decision']; review: Review; importId: string },
): Proposal<'result.reported'> {
  const { row, decision, review, importId } = context
  const settled = decision.values?.[result.column]
  const value = settled ?? result.value
  if (value === undefined) throw new TypeError(`Cannot report a result because row ${row.row} has no value`)
  const corrects =
    decision.action === 'amend' && result.existing !== undefined
      ? { corrects: { entry: result.existing.id, reason: decision.reason } }
      : {}
  const { species, serogroup, reportId, reportedOn, volumeExaminedMl, receivedOn, status, asWritten } = row.read
  const notes = [
    row.read.notes,
    settled === undefined
      ? undefined
      : `value settled at import${decision.reason === undefined ? '' : `: ${decision.reason}`}`,
  ]
    .filter((each) => each !== undefined)
    .join('. ')
  const named = isDetected(value) && result.method !== 'PCR' ? given({ species, serogroup }) : {}
  return {
    kind: 'result.reported',
    body: {
      label: row.label,
      laboratory: review.laboratory,
      method: result.method,
      target: result.target,
      value,
      ...named,
      status: decision.action === 'amend' ? 'corrected' : (status ?? 'final'),
      ...given({ reportId, reportedOn, volumeExaminedMl }),
      ...(receivedOn === undefined ? {} : { received: `${receivedOn}T00:00:00.000Z` }),
      importedBy: importId,
      row: row.row,
      asWritten,
      ...(result.halfLimitSuspected && settled === undefined ? { halfLimitSuspected: true } : {}),
      ...(notes === '' ? {} : { notes: notes.slice(0, 4000) }),
    },
    ...corrects,
  }
}
