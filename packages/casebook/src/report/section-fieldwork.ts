import { deviationsOf } from '../fieldwork/deviations.ts'
import { isResidual } from '../fieldwork/instruments.ts'
import type { ReadingQuantity } from '../fieldwork/kinds.ts'
import { instrumentRange, instrumentStep, readingAmount } from '../fieldwork/reading-words.ts'
import { neutralizerOf, type NeutralizerVerdict } from '../fieldwork/neutralizer-check.ts'
import type { StopVisit } from '../fieldwork/state.ts'
import { visitKey } from '../fieldwork/state.ts'
import { counted } from '../units/counted.ts'
import type { ReportContext } from './context.ts'
import type { Block, Cell, Row, Section } from './model.ts'
import { stopPlace } from './section-plan.ts'
import { column, heading, table, told } from './words.ts'
import { localDate, wallClock } from '../units/local-time.ts'

export function fieldworkSection(context: ReportContext): Section {
  const { visits } = context.state.fieldwork
  const rounds = [...new Set([...visits.values()].map(({ round }) => round))]
  const blocks: Block[] = [
    told(visitedWords(context)),
    heading('Deviations'),
    deviationTable(context),
    notDoneTable(context),
    ...rounds.flatMap((round) => [heading(`Readings of round ${round}`), readingTable(context, round)]),
    heading('Instruments'),
    instrumentTable(context),
    ...neutralizerBlocks(context),
    ...photoBlocks(context),
  ]
  return { id: 'fieldwork', title: 'Fieldwork', blocks }
}

function visitedWords({ state }: ReportContext): string {
  const { visits, samples, readings } = state.fieldwork
  if (visits.size === 0) return 'No stop has been visited.'
  const days = [...visits.values()].flatMap(({ started }) => (started === undefined ? [] : [localDate(started)])).sort()
  const [first, last] = [days[0], days.at(-1)]
  const when = first === undefined ? '' : first === last ? ` on ${first}` : ` from ${first} to ${last}`
  return `${counted(visits.size, 'stop')} visited${when}: ${counted(samples.size, 'sample')} collected, ${counted(readings.length, 'reading')} taken.`
}

/** The place of a visit as its plan names it. */
function visitPlace(context: ReportContext, { round, stop }: { round: string; stop: string }): string {
  const { plan, fieldwork } = context.state
  const planned =
    plan.rounds.get(round)?.body.plan.stops.find(({ id }) => id === stop) ??
    fieldwork.addedStops.find(({ body }) => body.round === round && body.stop.id === stop)?.body.stop
  return planned === undefined ? context.placeWords({ words: stop, component: stop }) : stopPlace(context, planned)
}

/** Every deviation in the order recorded, none summed up. Stops not wholly done have a table of their own. */
function deviationTable(context: ReportContext): Block {
  const { state, numbersOf, said } = context
  const own = new Set([...state.fieldwork.visits.values()].flatMap(({ deviations }) => deviations.map(({ id }) => id)))
  const rows: Row[] = deviationsOf(state)
    .filter(({ id }) => own.has(id))
    .map((deviation) => ({
      cells: [
        { text: wallClock(deviation), sub: deviation.round },
        visitPlace(context, deviation),
        { text: deviation.step ?? '', sub: deviation.label ?? '' },
        {
          text: deviation.leftOut ? `${deviation.reason}; left out` : deviation.reason,
          strong: true,
          sub: deviation.text === undefined ? '' : said(deviation.text),
        },
      ],
      entries: numbersOf(deviation),
    }))
  return table({
    caption: 'Departures from procedure and plan',
    columns: [column('When', 1.5), column('Point', 2), column('Step', 1.5), column('What', 3.2)],
    rows,
    none: 'No deviation is recorded.',
  })
}

/** Samples whose neutralizer was short of the residual, past its date, or could not be held against a residual. */
function neutralizerBlocks(context: ReportContext): Block[] {
  const { state, numbersOf } = context
  const checked = [...state.fieldwork.samples.keys()].flatMap((label) => {
    const verdict = neutralizerOf(state, label)
    return verdict === undefined ? [] : [{ label, verdict }]
  })
  if (checked.length === 0) return []
  const failing = checked.filter(({ verdict }) => verdict.covers === 'short' || verdict.expired)
  const open = checked.filter(({ verdict }) => verdict.covers === 'not known' && !verdict.expired)
  return [
    heading('Neutralizer'),
    told(
      `${counted(checked.length, 'sample')} with neutralizer, held against the residual measured at the stop by its least capacity, one electron a thiosulfate: ${checked.length - failing.length - open.length} covered and in date, ${failing.length} short or past its date, ${open.length} at stops without a residual that tells.`,
    ),
    table({
      caption: 'Samples whose neutralizer was short of the residual or past its date',
      columns: [
        column('Sample', 1.6),
        column('Place', 2.2),
        column('Covers up to', 1.4),
        column('Needed', 1.4),
        column('So', 2.4),
      ],
      rows: failing.map(({ label, verdict }) => {
        const sample = state.fieldwork.samples.get(label)
        const visit = sample === undefined ? undefined : state.fieldwork.visits.get(visitKey(sample.body))
        return {
          cells: [
            { text: label, mono: true },
            sample === undefined ? '' : visitPlace(context, sample.body),
            `${twoPlaces(verdict.capacityMgPerL)} mg/L`,
            verdict.requiredVolumeMl === undefined ? 'not known' : `${twoPlaces(verdict.requiredVolumeMl)} mL`,
            soWords(verdict),
          ],
          entries: numbersOf(sample, ...(visit?.readings.filter(({ body }) => isResidual(body.quantity)) ?? [])),
        }
      }),
      none: 'No neutralizer was found short or past its date.',
    }),
  ]
}

const twoPlaces = (value: number): string => String(Number(value.toFixed(2)))

function soWords({ covers, expired }: NeutralizerVerdict): string {
  const words = { covered: 'covered', short: 'short of the residual', 'not known': 'no residual measured that tells' }[
    covers
  ]
  return expired ? `${words}; lot past its date` : words
}

function notDoneTable(context: ReportContext): Block {
  const { state, numbersOf, said } = context
  const unvisited: Row[] = [...state.plan.rounds.values()].flatMap((adopted) =>
    adopted.body.plan.stops
      .filter(({ id }) => !state.fieldwork.visits.has(visitKey({ round: adopted.body.round, stop: id })))
      .map((stop) => ({
        cells: [adopted.body.round, stopPlace(context, stop), 'planned, not visited', ''],
        entries: numbersOf(adopted),
      })),
  )
  const partly: Row[] = [...state.fieldwork.visits.values()].flatMap((visit) => {
    const { finished } = visit
    if (finished === undefined)
      return [
        {
          cells: [visit.round, visitPlace(context, visit), 'begun, not finished', ''],
          entries: numbersOf(visit.started),
        },
      ]
    const { outcome, reason } = finished.body
    return outcome === 'sampled'
      ? []
      : [
          {
            cells: [visit.round, visitPlace(context, visit), outcome, reason === undefined ? '' : said(reason)],
            entries: numbersOf(finished),
          },
        ]
  })
  return table({
    caption: 'Stops not done, or done in part',
    columns: [column('Round', 0.7), column('Point', 2.4), column('Outcome', 1.6), column('Reason', 3)],
    rows: [...partly, ...unvisited],
    none: 'Every planned stop was visited and sampled.',
  })
}

const QUANTITIES: readonly (readonly [ReadingQuantity, string])[] = [
  ['hot-temperature', 'Hot, steady'],
  ['cold-temperature', 'Cold'],
  ['free-chlorine', 'Free chlorine'],
  ['total-chlorine', 'Total chlorine'],
  ['ph', 'pH'],
]

/** One line a stop: what each instrument said, as it was written down. Quantities nobody measured take no column. */
function readingTable(context: ReportContext, round: string): Block {
  const visits = [...context.state.fieldwork.visits.values()].filter(
    (visit) => visit.round === round && visit.readings.length > 0,
  )
  const taken = new Set(visits.flatMap(({ readings }) => readings.map(({ body }) => body.quantity)))
  const shown = QUANTITIES.filter(([quantity]) => taken.has(quantity))
  return table({
    caption: `Round ${round}: readings at each point`,
    columns: [
      column('Point', 2.6),
      ...shown.map(([quantity, words]) => column(words, quantity === 'hot-temperature' ? 1.8 : 1.2)),
      column('With', 1.2),
    ],
    rows: visits.map((visit) => readingRow(context, { visit, shown: shown.map(([quantity]) => quantity) })),
    note: 'Hot is the steady end of the temperature curve where one was taken, with the seconds from opening; else the single reading.',
    none: `Round ${round}: no reading was taken.`,
  })
}

function readingRow(
  context: ReportContext,
  { visit, shown }: { visit: StopVisit; shown: readonly ReadingQuantity[] },
): Row {
  const cells = shown.map((quantity): Cell => {
    const own = visit.readings.filter(({ body }) => body.quantity === quantity)
    const words = own.map(
      ({ body }) => `${readingAmount(body.reading, { units: context.units, signs: true })}${steadyWords(body)}`,
    )
    return words.join('; ')
  })
  const instruments = [...new Set(visit.readings.flatMap(({ body }) => body.instrument ?? []))]
  return {
    cells: [visitPlace(context, visit), ...cells, instruments.join(', ')],
    entries: context.numbersOf(...visit.readings),
  }
}

function steadyWords({ curve }: StopVisit['readings'][number]['body']): string {
  if (curve === undefined) return ''
  return curve.steady === undefined ? ' (never steady)' : ` (after ${curve.steady.fromSeconds} s)`
}

function instrumentTable({ state, numbersOf, units }: ReportContext): Block {
  const rows: Row[] = [...state.fieldwork.instruments.values()].map((entry) => {
    const { code, kind, measures, rangeMin, rangeMax, resolution, unit, calibratedOn, calibrationDue } = entry.body
    const range = instrumentRange({ rangeMin, rangeMax, unit }, units)
    return {
      cells: [
        { text: code, mono: true },
        kind,
        measures.map((one) => one.replace('-', ' ')).join(', '),
        `${range}, steps of ${instrumentStep({ resolution, unit }, units)}`,
        calibratedOn === undefined
          ? 'not stated'
          : `${calibratedOn}${calibrationDue === undefined ? '' : `, due ${calibrationDue}`}`,
      ],
      entries: numbersOf(entry),
    }
  })
  return table({
    caption: 'Instruments',
    columns: [
      column('Code', 0.7),
      column('Kind', 1.3),
      column('Measures', 2.2),
      column('Range', 2.4),
      column('Calibrated', 2),
    ],
    rows,
    none: 'No instrument is registered.',
  })
}

/** Photographs show rooms and people; the redacted variant counts them only. */
function photoBlocks(context: ReportContext): Block[] {
  const photos = [...context.state.fieldwork.visits.values()].flatMap((visit) =>
    visit.photos.map((entry) => ({ visit, entry })),
  )
  if (photos.length === 0) return []
  if (context.redacted) return [told(`${counted(photos.length, 'photograph')} taken; withheld.`)]
  return [
    heading('Photographs'),
    table({
      caption: 'Photographs, each kept under the hash of its bytes',
      columns: [column('Point', 2), column('Shows', 3), column('SHA-256, first half', 3)],
      rows: photos.map(({ visit, entry }) => ({
        cells: [visitPlace(context, visit), entry.body.shows, { text: entry.body.sha256.slice(0, 32), mono: true }],
        entries: context.numbersOf(entry),
      })),
      none: '',
    }),
  ]
}
