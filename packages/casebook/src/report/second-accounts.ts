import type { Contest } from '../contests/state.ts'
import type { ContestDecision } from '../contests/kinds.ts'
import { disagreements } from '../contests/disagreements.ts'
import type { Entry } from '../entry/entry.ts'
import { KINDS } from '../entry/kinds.ts'
import { stopTitles } from '../fieldwork/stops.ts'
import { entryWords } from '../record/entry-words.ts'
import type { EffectiveEntry } from '../state/effective.ts'
import type { ReportContext } from './context.ts'
import type { Block, Cell, Row } from './model.ts'
import { column, heading, listed, table, told } from './words.ts'

type Settled = EffectiveEntry<'contest.settled'>

/** What two people told differently, and how a person settled it; nothing where nobody did. */
export function secondAccounts(context: ReportContext): Block[] {
  const { state } = context
  const { contested, settled } = state.contests
  const rows = [
    ...[...contested.values()].map((contest) => contestRow(context, contest)),
    ...[...settled.values()].flatMap((settlement) => pairRow(context, settlement)),
    ...disagreements(state).flatMap(({ first, second }) => openRow(context, { first: first.id, second: second.id })),
  ]
  if (rows.length === 0) return []
  return [
    heading('Second accounts'),
    told(
      'Two devices that did not know of each other told one thing differently. Both accounts stay in the record; what counts is what a person settled.',
    ),
    table({
      caption: 'What was told twice and differently, and what was settled',
      columns: [column('First account', 2.2), column('Second account', 2.6), column('Settled', 3)],
      rows,
      none: '',
    }),
  ]
}

function contestRow(context: ReportContext, { original, against, contested }: Contest): Row {
  const settlement = context.state.contests.settled.get(original.id)
  const row = accountsRow(context, {
    first: against,
    second: original,
    how: 'the second counts for nothing',
    settlement,
  })
  return { ...row, entries: [...context.numbersOf(contested), ...(row.entries ?? [])] }
}

/** Two entries that were both in the record when a person settled which stands. */
function pairRow(context: ReportContext, settlement: Settled): Row[] {
  const { contested, against } = settlement.body
  const second = context.state.record.entries.find(({ id }) => id === contested)
  if (against === undefined || second === undefined) return []
  return [accountsRow(context, { first: [against], second, how: '', settlement })]
}

function openRow(context: ReportContext, { first, second }: { first: string; second: string }): Row[] {
  const entry = context.state.record.entries.find(({ id }) => id === second)
  if (entry === undefined) return []
  return [accountsRow(context, { first: [first], second: entry, how: 'both count', settlement: undefined })]
}

interface Accounts {
  readonly first: readonly string[]
  readonly second: Entry
  /** what holds while nobody settled it */
  readonly how: string
  readonly settlement: Settled | undefined
}

function accountsRow(context: ReportContext, { first, second, how, settlement }: Accounts): Row {
  const { state, numberOfId, numbersOf } = context
  const known = first.flatMap((id) => state.record.entries.find((entry) => entry.id === id) ?? [])
  const number = numberOfId(second.id)
  return {
    cells: [
      known.length === 0 ? 'the record as it stood' : listed(known.map((entry) => saidBy(context, entry))),
      saidBy(context, second),
      settlement === undefined ? { text: `not settled: ${how}`, strong: true } : settledCell(context, settlement),
    ],
    entries: [
      ...first.flatMap((id) => numberOfId(id) ?? []),
      ...(number === undefined ? [] : [number]),
      ...(settlement === undefined ? [] : numbersOf(settlement)),
    ],
  }
}

/** What an entry says and on which device; only what kind it is where names and places are withheld. */
function saidBy({ redacted, state }: ReportContext, entry: Entry): string {
  const title = KINDS[entry.kind].title
  if (redacted) return title
  return `${title}: ${entryWords(entry, stopTitles(state))} (${entry.author}, ${state.devices.get(entry.device)?.name ?? entry.device})`
}

function settledCell({ redacted, said }: ReportContext, { author, body: { decision, reason } }: Settled): Cell {
  return { text: DECIDED[decision], strong: true, sub: redacted ? said(reason) : `${said(reason)} (${author})` }
}

const DECIDED: Readonly<Record<ContestDecision, string>> = {
  'first stands': 'the first stands',
  'second stands': 'the second stands',
  'both stand': 'both stand',
}
