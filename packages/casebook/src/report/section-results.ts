import type { CriteriaBand, CriteriaSet } from '../criteria/criteria-set.ts'
import type { Judgement } from '../criteria/judge.ts'
import { bandCounts } from '../findings/band-counts.ts'
import { countInterval } from '../findings/count-interval.ts'
import type { RowResult, SampleRow } from '../findings/sample-rows.ts'
import { counted } from '../units/counted.ts'
import { DEFAULT_PREFERENCES, displayResult } from '../units/display.ts'
import type { ReportContext } from './context.ts'
import type { Block, Cell, Row, Section } from './model.ts'
import { column, heading, numberColumn, table, told } from './words.ts'

export function resultsSection(context: ReportContext): Section {
  const { rows, criteria } = context
  const blocks: Block[] = [
    told(
      `${counted(rows.length, 'sample')}. Values stand as the laboratory reported them, in its unit; results in different units are not compared. A negative speaks of the volume examined and the method, never of a building without Legionella.`,
    ),
    ...(criteria.kind === 'chosen' ? criteriaBlocks(context, criteria.set) : []),
    heading('Every sample'),
    sampleTable(context),
    ...importBlocks(context),
  ]
  return { id: 'results', title: 'Results', blocks }
}

/** A band's beginning in the words of its set. */
export function boundWords({ from }: Pick<CriteriaBand, 'from'>, unit: string): string {
  if (from.kind === 'not-detected') return 'not detected'
  if (from.kind === 'detected') return 'detected, whatever the count'
  return from.kind === 'reaches' ? `${from.value} ${unit} and more` : `more than ${from.value} ${unit}`
}

function criteriaBlocks(context: ReportContext, set: CriteriaSet): Block[] {
  const { rows, cite, state, numbersOf, resultNumbers } = context
  const counts = bandCounts(rows, set)
  const unit = set.scales.find(({ water }) => water === 'potable')?.unit ?? ''
  const entries = numbersOf(state.findings.criteria)
  const bands: Row[] = counts.bands.map(({ band, labels }) => ({
    cells: [
      { text: band.label, strong: true },
      boundWords(band, unit),
      band.action,
      `[${cite(band)}]`,
      `${labels.length}`,
    ],
    entries: [...entries, ...resultNumbers(labels)],
  }))
  const outside = [
    ...counts.undecided.map((each) => ({ ...each, how: 'undecided' })),
    ...counts.outside.map((each) => ({ ...each, how: 'not judged' })),
  ]
  return [
    heading('Criteria'),
    told(
      `${set.title}, version ${set.version}, ${set.jurisdiction}; last read against its sources on ${set.date}. Status: ${set.status}.`,
      { entries },
    ),
    table({
      caption: 'Bands of the chosen criteria, with the results in each',
      columns: [
        column('Band', 1.4),
        column('From', 1.8),
        column('Action it calls for', 4),
        column('Source', 0.7),
        numberColumn('Results', 0.7),
      ],
      rows: bands,
      note: counts.caveats.length === 0 ? undefined : `Mind: ${counts.caveats.join('; ')}.`,
      none: 'The chosen criteria have no bands for potable water.',
    }),
    table({
      caption: 'Results that fall into no single band',
      columns: [column('How', 1), column('Why', 5), numberColumn('Results', 0.8)],
      rows: outside.map(({ how, reason, labels }) => ({
        cells: [how, reason, `${labels.length}`],
        entries: resultNumbers(labels),
      })),
      none: 'Every result falls into one band.',
    }),
    ...shareSaid(counts.share),
  ]
}

function shareSaid(share: ReturnType<typeof bandCounts>['share']): Block[] {
  if (share === undefined) return []
  const { judgement, positive, total } = share
  const says = judgement.kind === 'band' ? `${judgement.band.label}: ${judgement.band.action}` : judgement.reason
  return [told(`Share counted by the set’s own rule: ${positive} of ${total}. ${says}`)]
}

function sampleTable(context: ReportContext): Block {
  return table({
    caption: 'Every sample with every result',
    columns: [
      column('Sample', 2),
      column('Place', 2.4),
      column('As reported', 2.6),
      column('Band', 2),
      column('Flags', 2.2),
    ],
    rows: context.rows.flatMap((row) => rowsOf(context, row)),
    note: '95 % limits of counting, where shown, come from the colonies counted alone; recovery and method lose more and are not in them.',
    none: 'No sample was taken.',
  })
}

/** A sample with several results takes a line for each. */
function rowsOf(context: ReportContext, row: SampleRow): Row[] {
  const { state, numbersOf } = context
  const sample = state.fieldwork.samples.get(row.label) ?? state.results.registered.get(row.label)
  const first: Cell = { text: row.label, mono: true, sub: row.kindWords }
  const when = [row.round, row.collectedOn].flatMap((one) => one ?? []).join(' · ')
  const place: Cell = { text: rowPlace(context, row), sub: when }
  if (row.results.length === 0)
    return [{ cells: [first, place, 'waiting', '', flagsOf(row).join('; ')], entries: numbersOf(sample) }]
  return row.results.map((result) => ({
    cells: [first, place, reported(result), bandWords(result.judgement), flagsOf(row, result).join('; ')],
    entries: numbersOf(sample, result.entry),
  }))
}

export function rowPlace({ placeWords }: ReportContext, row: SampleRow): string {
  if (row.medium === 'blank') return 'field blank'
  return placeWords({ words: row.place, component: row.component })
}

function reported({ entry, outcome }: RowResult): Cell {
  const { value, method, target, species, serogroup, laboratory, status, reportedOn } = entry.body
  const strain = [
    species,
    serogroup === undefined ? undefined : `serogroup ${serogroup.replace(/^(?:serogroup|sg)\s*/i, '')}`,
  ]
  const interval = countInterval(entry.body)
  const limits =
    interval === undefined ? [] : [`95 % limits of counting ${short(interval.lower)} to ${short(interval.upper)}`]
  const by = `${method}, ${target}${status === 'final' ? '' : `, ${status}`}${reportedOn === undefined ? '' : `, ${reportedOn}`}`
  return {
    text: displayResult(value, DEFAULT_PREFERENCES),
    strong: outcome === 'positive',
    sub: [...strain.flatMap((one) => one ?? []), ...limits, by, laboratory].join(' · '),
  }
}

/** Two significant digits: limits of counting are no sharper. */
const short = (value: number): string => String(Number(value.toPrecision(2)))

function bandWords(judgement: Judgement | undefined): Cell {
  if (judgement === undefined) return ''
  if (judgement.kind === 'band')
    return { text: judgement.band.label, ...(judgement.band.urgency === 'none' ? {} : { sub: judgement.band.urgency }) }
  if (judgement.kind === 'undecided')
    return { text: `undecided: ${judgement.possible.map(({ label }) => label).join(' or ')}`, sub: judgement.reason }
  return { text: 'not judged', sub: judgement.reason }
}

/** What must be known with a result: treatment before it, filter, half limits, where it came from. */
export function flagsOf(row: SampleRow, result?: RowResult): string[] {
  const flags: string[] = []
  if (row.sinceTreatment !== undefined) {
    const { days, treatment } = row.sinceTreatment
    flags.push(`after ${treatment.what}, ${days === 0 ? 'same day' : `${counted(days, 'day')} after`}`)
  }
  if (row.afterFilter) flags.push('through a filter')
  if (result?.entry.body.halfLimitSuspected === true)
    flags.push('looks like half of a detection limit, counted as negative')
  if (result?.outcome === 'not interpretable') flags.push('no negative: sample again')
  if (row.origin === 'taken by others') flags.push('taken by others')
  return flags
}

function importBlocks({ state, numbersOf }: ReportContext): Block[] {
  const rows: Row[] = state.results.imports.map((entry) => {
    const { fileName, laboratory, rows: all, accepted, setAside, sha256 } = entry.body
    return {
      cells: [
        { text: fileName, sub: laboratory },
        `${all}`,
        `${accepted}`,
        `${setAside.length}`,
        { text: sha256.slice(0, 16), mono: true },
      ],
      entries: numbersOf(entry),
    }
  })
  if (rows.length === 0) return []
  return [
    heading('Files of the laboratories'),
    table({
      caption: 'Result files taken in',
      columns: [
        column('File', 3),
        numberColumn('Rows', 0.8),
        numberColumn('Accepted', 1),
        numberColumn('Set aside', 1),
        column('SHA-256 begins', 2),
      ],
      rows,
      none: '',
    }),
  ]
}
