import { KINDS } from '../entry/kinds.ts'
import { counted } from '../units/counted.ts'
import { type DisplayUnits, METRIC_UNITS } from '../units/display-units.ts'
import type { ReportContext } from './context.ts'
import type { Block, Row, Section } from './model.ts'
import { secondAccounts } from './second-accounts.ts'
import { column, heading, listed, table, told } from './words.ts'
import { wallClock } from '../units/local-time.ts'

export function recordSection(context: ReportContext): Section {
  const { state, head } = context
  const { entries } = state.record
  const [first, last] = [entries[0], entries.at(-1)]
  const authors = [...new Set(entries.map(({ author }) => author))]
  const span = first === undefined || last === undefined ? 'no entry' : `${wallClock(first)} to ${wallClock(last)}`
  const blocks: Block[] = [
    {
      block: 'facts',
      facts: [
        { name: 'Entries', text: `${entries.length}, written from ${span}` },
        {
          name: 'Written by',
          text: context.redacted ? counted(authors.length, { one: 'person', many: 'people' }) : authors.join(', '),
        },
        { name: 'On', text: counted(new Set(entries.map(({ device }) => device)).size, 'device') },
        { name: 'Head', text: `entry ${head.sequence}, SHA-256 ${head.hash}` },
        ...unitFact(context.units),
      ],
    },
    told(
      'Numbers in the column “Entry” are places in this record, counted from 1. Each entry is tied to the one before it by SHA-256 over its canonical JSON (RFC 8785); changing, dropping or moving one breaks every hash after it.',
    ),
    told(
      `To verify: get the open package of the investigation, run “rillmark verify” on it, and compare the head it names with the one above. They agree as long as the record has ${entries.length} entries; a longer record must still hold this hash at entry ${head.sequence}.`,
    ),
    heading('Amendments and withdrawals'),
    correctionTable(context),
    ...secondAccounts(context),
    ...issuedBlocks(context),
  ]
  return { id: 'record', title: 'The record', blocks }
}

/** The record's own units go without saying. */
function unitFact(units: DisplayUnits): { name: string; text: string }[] {
  const others = Object.entries(METRIC_UNITS)
    .filter(([name, unit]) => units[name as keyof DisplayUnits] !== unit)
    .map(([name]) => units[name as keyof DisplayUnits])
  if (others.length === 0) return []
  return [
    {
      name: 'Units',
      text: `told in ${listed(others)} for the reader; the record keeps °C, L, mm, m and kg, and counts as reported`,
    },
  ]
}

function correctionTable(context: ReportContext): Block {
  const { state, said, numberOfId, redacted } = context
  const rows = state.record.entries.flatMap((entry, index): Row[] => {
    const { corrects } = entry
    if (corrects === undefined) return []
    const corrected = state.record.entries.find(({ id }) => id === corrects.entry)
    const what = entry.kind === 'entry.withdrawn' ? 'withdraws' : 'amends'
    const kind = corrected === undefined ? 'an unknown entry' : KINDS[corrected.kind].title.toLowerCase()
    return [
      {
        cells: [
          wallClock(entry),
          `${what} ${numberOfId(corrects.entry) ?? 'an unknown entry'}, ${kind}`,
          said(corrects.reason),
          ...(redacted ? [] : [entry.author]),
        ],
        entries: [index + 1],
      },
    ]
  })
  return table({
    caption: 'Entries that amend or withdraw others; both versions stay in the record',
    columns: [column('When', 1.3), column('What', 2.4), column('Reason', 3.2), ...(redacted ? [] : [column('By', 1)])],
    rows,
    none: 'No entry was amended or withdrawn.',
  })
}

function issuedBlocks({ state, numbersOf, named }: ReportContext): Block[] {
  if (state.report.issued.length === 0) return []
  return [
    heading('Reports issued before'),
    table({
      caption: 'Reports issued, each with the hash of its bytes',
      columns: [
        column('When', 1.2),
        column('Variant', 0.9),
        column('To', 1.8),
        column('Of entry', 0.8),
        column('SHA-256 of the file', 4),
      ],
      rows: state.report.issued.map((entry) => ({
        cells: [
          wallClock(entry),
          entry.body.variant,
          named(entry.body.issuedTo),
          `${entry.body.headSequence}`,
          { text: entry.body.sha256, mono: true },
        ],
        entries: numbersOf(entry),
      })),
      none: '',
    }),
  ]
}
