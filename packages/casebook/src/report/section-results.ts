import { CONFIDENCE_WORDS } from '../findings/confidence.ts'
import type { CriteriaBand, CriteriaSet } from '../criteria/criteria-set.ts'
import type { Judgement } from '../criteria/judge.ts'
import { bandCounts } from '../findings/band-counts.ts'
import { countInterval } from '../findings/count-interval.ts'
import type { RowResult, SampleRow } from '../findings/sample-rows.ts'
import { counted } from '../units/counted.ts'
import type { DisplayUnits } from '../units/display-units.ts'
import { showConcentration } from '../units/display.ts'
import type { ResultValue } from '../units/result-value.ts'
import { resultWords } from '../units/result-words.ts'
import type { ReportContext } from './context.ts'
import type { Block, Cell, Row, Section } from './model.ts'
import { column, heading, numberColumn, table, told } from './words.ts'

export function resultsSection(context: ReportContext): Section {
  const { rows, criteria, units } = context
  const blocks: Block[] = [
    told(
      `${counted(rows.length, 'sample')}. ${unitSentence(units)}; results in different units are not compared. A negative speaks of the volume examined and the method, never of a building without Legionella.`,
    ),
    ...(criteria.kind === 'chosen' ? criteriaBlocks(context, criteria.set) : []),
    heading('Every sample'),
    sampleTable(context),
    ...importBlocks(context),
  ]
  return { id: 'results', title: 'Results', blocks }
}

function unitSentence({ count }: DisplayUnits): string {
  return count === 'as reported'
    ? 'Values stand as the laboratory reported them, in its unit'
    : `Counts in water are told ${count}; the record holds them in the unit the laboratory reported`
}

/** A band's beginning in the words of its set. */
function boundWords({ from }: Pick<CriteriaBand, 'from'>, unit: string): string {
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
  const keys = reasonKeys(context)
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
      columns: [column('Key', 0.4), column('How', 1), column('Why', 5), numberColumn('Results', 0.8)],
      rows: outside.map(({ how, reason, labels }) => ({
        cells: [`(${keys.get(reason) ?? ''})`, how, reason, `${labels.length}`],
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
  const laboratories = new Set(context.state.results.results.map(({ body }) => body.laboratory))
  const [only] = laboratories
  const how: Telling = { keys: reasonKeys(context), laboratory: laboratories.size > 1 }
  const by = laboratories.size === 1 ? `All results by ${only}. ` : ''
  return table({
    caption: 'Every sample with every result',
    columns: [
      column('Sample', 2.2),
      column('Place', 1.9),
      column('As reported', 3),
      column('Method', 1.1),
      column('Band', 1.5),
      column('Flags', 1.9),
    ],
    rows: context.rows.flatMap((row) => rowsOf(context, { row, how })),
    note: `${by}Letters in brackets refer to the reasons listed with the criteria. The target is Legionella where none is named. “By counting” gives ${CONFIDENCE_WORDS} limits from the colonies counted alone; recovery and method lose more and are not in them.`,
    none: 'No sample was taken.',
  })
}

interface Telling {
  /** the letter of each reason for not judging a result */
  readonly keys: ReadonlyMap<string, string>
  /** whether results come from several laboratories, so that each must be named */
  readonly laboratory: boolean
}

/** Letters for the reasons why results fall into no single band, in the order of their table. */
function reasonKeys({ rows, criteria }: ReportContext): ReadonlyMap<string, string> {
  if (criteria.kind !== 'chosen') return new Map()
  const { undecided, outside } = bandCounts(rows, criteria.set)
  const reasons = [...new Set([...undecided, ...outside].map(({ reason }) => reason))]
  return new Map(reasons.map((reason, index) => [reason, letter(index)]))
}

const ALPHABET = 'abcdefghijklmnopqrstuvwxyz'
const letter = (index: number): string => ALPHABET[index] ?? `z${index}`

/** A sample with several results takes a line for each. */
function rowsOf(context: ReportContext, { row, how }: { row: SampleRow; how: Telling }): Row[] {
  const { state, numbersOf } = context
  const sample = state.fieldwork.samples.get(row.label) ?? state.results.registered.get(row.label)
  const first: Cell = { text: row.label, mono: true, sub: row.kindWords }
  const when = [row.round, row.collectedOn].flatMap((one) => one ?? []).join(' · ')
  const place: Cell = { text: rowPlace(context, row), sub: when }
  if (row.results.length === 0)
    return [
      { cells: [first, place, 'waiting', '', '', flagsOf(context, { row }).join('; ')], entries: numbersOf(sample) },
    ]
  return row.results.map((result) => ({
    cells: [
      first,
      place,
      reported(context, result),
      methodCell(result, how),
      bandCell(result.judgement, how),
      flagsOf(context, { row, result }).join('; '),
    ],
    entries: numbersOf(sample, result.entry),
  }))
}

export function rowPlace({ placeWords }: ReportContext, row: SampleRow): string {
  if (row.medium === 'blank') return 'field blank'
  return placeWords({ words: row.place, component: row.component })
}

function reported({ said, units }: ReportContext, { entry, outcome }: RowResult): Cell {
  const { value, species, serogroup, status } = entry.body
  const strain = [
    species,
    serogroup === undefined ? undefined : `serogroup ${serogroup.replace(/^(?:serogroup|sg)\s*/i, '')}`,
  ]
  const interval = countInterval(entry.body)
  const words = resultWords(value, { units })
  const limit = (bound: number): string => short(inUnitOf(value, { bound, units }))
  const limits = interval === undefined ? [] : [`${limit(interval.lower)}–${limit(interval.upper)} by counting`]
  return {
    text: value.kind === 'not-tested' ? said(words) : words,
    strong: outcome === 'positive',
    sub: [...strain.flatMap((one) => one ?? []), ...limits, ...(status === 'final' ? [] : [status])].join(' · '),
  }
}

function methodCell({ entry }: RowResult, { laboratory }: Telling): Cell {
  const { method, target, reportedOn } = entry.body
  const below = [
    target === 'Legionella' ? undefined : target,
    reportedOn,
    laboratory ? entry.body.laboratory : undefined,
  ]
  return { text: method, sub: below.flatMap((one) => one ?? []).join(' · ') }
}

/** A limit of a count in the unit the count is told in. */
function inUnitOf(value: ResultValue, { bound, units }: { bound: number; units: DisplayUnits }): number {
  return value.kind === 'count' ? Number(showConcentration({ value: bound, unit: value.unit }, units).text) : bound
}

/** Two significant digits: limits of counting are no sharper. */
const short = (value: number): string => String(Number(value.toPrecision(2)))

function bandCell(judgement: Judgement | undefined, { keys }: Telling): Cell {
  if (judgement === undefined) return ''
  if (judgement.kind === 'band')
    return { text: judgement.band.label, ...(judgement.band.urgency === 'none' ? {} : { sub: judgement.band.urgency }) }
  const key = `(${keys.get(judgement.reason) ?? judgement.reason})`
  return judgement.kind === 'undecided'
    ? `undecided ${key}: ${judgement.possible.map(({ label }) => label).join(' or ')}`
    : `not judged ${key}`
}

/** What must be known with a result: treatment before it, filter, half limits, where it came from. */
function flagsOf({ worker }: ReportContext, { row, result }: { row: SampleRow; result?: RowResult }): string[] {
  const flags: string[] = []
  if (row.sinceTreatment !== undefined) {
    const { days, treatment } = row.sinceTreatment
    flags.push(days === 0 ? `on the day of ${treatment.what}` : `${counted(days, 'day')} after ${treatment.what}`)
  }
  if (row.afterFilter) flags.push('through a filter')
  if (result?.entry.body.halfLimitSuspected === true)
    flags.push('looks like half of a detection limit, counted as negative')
  if (result?.part !== undefined) flags.push(`on the part ${result.part.label}, divided for ${worker(result.part.to)}`)
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
