import type { InvestigationState } from '../state/investigation-state.ts'
import { resultWords } from '../units/result-words.ts'
import type { EffectiveEntry } from '../state/effective.ts'
import type { ResultValue } from '../units/result-value.ts'
import { type KnownSample, knownSamples } from './known-samples.ts'
import { type LabelMatch, labelMatcher } from './label-match.ts'
import type { Method, ReadResult, ReadRow } from './read-row.ts'
import { addReason, type Reason, type Reasons } from './reason.ts'
import { isTotalsRow, totalsProblem } from './totals-rows.ts'
import { dateSerials } from './trap-dates.ts'
import { halfLimits } from './trap-half-limit.ts'
import { nearRepeats, repeatedInFile } from './trap-repeats.ts'
import { timingReasons } from './trap-timing.ts'
import { swabOrWater, unitSlips } from './trap-units.ts'

export interface ReviewInput {
  readonly state: InvestigationState
  readonly rows: readonly ReadRow[]
  readonly laboratory: string
  /** who took the samples whose labels are not ours; without it such rows wait for a decision */
  readonly takenBy?: string
  /** labels settled by a person, by row */
  readonly relabelled?: ReadonlyMap<number, string>
}

export interface ReviewedResult {
  readonly column: string
  readonly method: Method
  readonly target: string
  /** undefined where the cell could not be read: a person gives the value or sets the row aside */
  readonly value: ResultValue | undefined
  readonly halfLimitSuspected: boolean
  /** what the record already holds on this sample by this method */
  readonly existing: EffectiveEntry<'result.reported'> | undefined
}

export interface ReviewedRow {
  readonly row: number
  /** the label of the record where one was found, else as written */
  readonly label: string
  readonly sample: KnownSample | undefined
  /** accepting the row also registers the sample, taken by others */
  readonly registers: boolean
  readonly results: readonly ReviewedResult[]
  readonly reasons: readonly Reason[]
  readonly state: 'matched' | 'attention' | 'set aside'
  readonly read: ReadRow
}

export interface Review {
  readonly laboratory: string
  readonly takenBy: string | undefined
  readonly rows: readonly ReviewedRow[]
  /** what speaks against the file as a whole */
  readonly notes: readonly string[]
  readonly counts: Readonly<Record<ReviewedRow['state'], number>>
}

/**
 * Holds the rows of a laboratory's file against the record and against each other: which belong to a sample and are plain, which a
 * person has to look at and why, which bring nothing new. Nothing is accepted here, no value is changed, no row is dropped.
 */
export function reviewResults(input: ReviewInput): Review {
  const relabelled = input.rows.map((row) => ({ ...row, label: input.relabelled?.get(row.row) ?? row.label }))
  const [totals, rows] = [relabelled.filter(isTotalsRow), relabelled.filter((row) => !isTotalsRow(row))]
  const reasons = fileReasons(rows, input)
  const match = labelMatcher(knownSamples(input.state))
  const reviewed = rows.map((row) => reviewRow(row, { input, match, reasons: reasons.get(row.row) ?? [] }))
  const all = [...reviewed, ...totals.map(totalsRow)].sort((a, b) => a.row - b.row)
  const count = (state: ReviewedRow['state']) => all.filter((row) => row.state === state).length
  return {
    laboratory: input.laboratory,
    takenBy: input.takenBy,
    rows: all,
    notes: totals.flatMap((total) => totalsProblem(total, rows) ?? []),
    counts: { matched: count('matched'), attention: count('attention'), 'set aside': count('set aside') },
  }
}

function fileReasons(rows: readonly ReadRow[], { state, laboratory }: ReviewInput): Reasons {
  const reasons: Reasons = new Map()
  for (const { row, remarks, results } of rows) {
    for (const remark of remarks) addReason(reasons, { row, blocks: true, ...remark })
    for (const { column, reading } of results)
      if (reading.kind !== 'empty')
        for (const remark of reading.remarks) addReason(reasons, { row, column, blocks: true, ...remark })
  }
  dateSerials(rows, reasons)
  unitSlips(rows, { reasons, results: state.results, laboratory })
  halfLimits(rows, reasons)
  repeatedInFile(rows, reasons)
  nearRepeats(rows, reasons)
  return reasons
}

interface RowContext {
  readonly input: ReviewInput
  readonly match: (written: string) => LabelMatch
  readonly reasons: readonly Reason[]
}

function reviewRow(row: ReadRow, { input, match, reasons }: RowContext): ReviewedRow {
  const matched = match(row.label)
  const sample = matched.kind === 'known' ? matched.sample : undefined
  const registers = matched.kind === 'unknown' && !matched.ours && input.takenBy !== undefined
  const label = sample?.label ?? row.label
  const results = row.results
    .filter(({ reading }) => reading.kind !== 'empty')
    .map((result) => reviewResult(result, { label, input, reasons }))
  const all = [
    ...reasons,
    ...(registers ? [] : labelReasons(row.label, matched)),
    ...sampleReasons(row, { sample, results }),
    ...recordReasons(row, results),
  ]
  return { row: row.row, label, sample, registers, results, reasons: all, state: stateOf(results, all), read: row }
}

function reviewResult(
  result: ReadResult,
  { label, input, reasons }: { label: string; input: ReviewInput; reasons: readonly Reason[] },
): ReviewedResult {
  const { column, method, target, reading } = result
  const value = reading.kind === 'value' ? reading.value : undefined
  const existing = input.state.results.resultsByLabel
    .get(label)
    ?.findLast(({ body }) => body.method === method && body.target === target)
  const halfLimitSuspected = reasons.some((reason) => reason.trap === 'half the limit' && reason.column === column)
  return { column, method, target, value, halfLimitSuspected, existing }
}

function labelReasons(written: string, match: LabelMatch): Reason[] {
  switch (match.kind) {
    case 'missing':
      return [{ trap: 'label missing', blocks: true, words: 'the row names no sample' }]
    case 'mis-keyed':
      return [{ trap: 'label mis-keyed', blocks: true, words: `${written}: ${match.advice}`, nearest: match.nearest }]
    case 'unknown':
      return [{ trap: 'label unknown', blocks: true, words: unknownWords(written, match.ours), nearest: match.nearest }]
    default:
      return match.note === undefined
        ? []
        : [{ trap: 'label mis-keyed', blocks: false, words: `${written}: ${match.note}` }]
  }
}

function unknownWords(written: string, ours: boolean): string {
  return ours
    ? `${written} is written like one of our labels, but this record has no such sample`
    : `${written} is none of our labels: if others took the sample, say who`
}

function sampleReasons(
  row: ReadRow,
  { sample, results }: { sample: KnownSample | undefined; results: readonly ReviewedResult[] },
): Reason[] {
  const timing = timingReasons(row, sample)
  if (sample === undefined) return timing
  const values = results.flatMap(({ value }) => value ?? [])
  const reasons = values.flatMap((value) => swabOrWater(value, sample) ?? [])
  if (sample.origin === 'planned')
    reasons.push({
      trap: 'not collected',
      blocks: true,
      words: `${sample.label} is planned, but nobody recorded collecting it`,
    })
  const reported = values.some(({ kind }) => kind !== 'broken' && kind !== 'not-tested')
  if (sample.condition !== undefined && reported)
    reasons.push({
      trap: 'refused by the laboratory',
      blocks: true,
      words: `at receipt the laboratory noted "${sample.condition}", and now reports a result`,
    })
  return [...timing, ...reasons]
}

function recordReasons(row: ReadRow, results: readonly ReviewedResult[]): Reason[] {
  const reasons = results.flatMap(({ column, value, existing }): Reason[] => {
    if (existing === undefined || value === undefined) return []
    if (sameValue(value, existing.body.value) && row.status !== 'corrected')
      return [{ trap: 'already in the record', blocks: false, column, words: 'the record holds this result already' }]
    return [
      {
        trap: 'changes a result',
        blocks: true,
        column,
        words: `the record holds "${resultWords(existing.body.value, { method: existing.body.method })}" on this sample: amend that, or keep both`,
      },
    ]
  })
  if (row.status === 'corrected' && results.length > 0 && results.every(({ existing }) => existing === undefined))
    reasons.push({
      trap: 'corrects nothing',
      blocks: true,
      words: 'a corrected report, but the record holds no earlier result on this sample',
    })
  return reasons
}

function sameValue(a: ResultValue, b: ResultValue): boolean {
  const sorted = (value: ResultValue) => JSON.stringify(Object.entries(value).sort(([x], [y]) => (x < y ? -1 : 1)))
  return sorted(a) === sorted(b)
}

function stateOf(results: readonly ReviewedResult[], reasons: readonly Reason[]): ReviewedRow['state'] {
  if (results.length === 0) return 'set aside'
  const known = reasons.filter(({ trap }) => trap === 'already in the record').length
  if (known === results.length) return 'set aside'
  return reasons.some(({ blocks }) => blocks) ? 'attention' : 'matched'
}

function totalsRow(row: ReadRow): ReviewedRow {
  const reasons: Reason[] = [{ trap: 'totals row', blocks: false, words: 'a line of totals, no sample' }]
  return {
    row: row.row,
    label: row.label,
    sample: undefined,
    registers: false,
    results: [],
    reasons,
    state: 'set aside',
    read: row,
  }
}
