import definitions from '@rillmark/reference/incubation/definitions.json' with { type: 'json' }
import { sourcesOf } from '@rillmark/science/catalogue/sources.ts'
import { CLASSIFICATIONS } from '../cases/kinds.ts'
import { sharedParts } from '../cases/shared-parts.ts'
import { caseWindows, definitionInUse } from '../cases/windows.ts'
import { counted } from '../units/counted.ts'
import type { ReportContext } from './context.ts'
import type { Block, Row, Section } from './model.ts'
import { column, monthWords, numberColumn, table, told } from './words.ts'

export function casesSection(context: ReportContext): Section {
  return { id: 'cases', title: 'Cases', blocks: context.redacted ? countedCases(context) : codedCases(context) }
}

/** By code only: no name is ever in the record. */
function codedCases(context: ReportContext): Block[] {
  const { state, numbersOf, said } = context
  const windows = new Map(caseWindows(state.cases).map(({ code, window }) => [code, window]))
  const rows: Row[] = [...state.cases.cases.values()].map((entry) => {
    const { code, classification, onsetDate, link, isolate } = entry.body
    const window = windows.get(code)
    return {
      cells: [
        { text: code, mono: true },
        classification,
        onsetDate ?? 'not known',
        window === undefined ? 'none' : `${window.from} to ${window.to}`,
        link,
        isolate,
      ],
      entries: numbersOf(entry),
    }
  })
  return [
    told(
      'People are named by code only. Who they are is known to those who treat and interview them, and is not in this record.',
    ),
    definitionSaid(context),
    table({
      caption: 'Cases, by code',
      columns: [
        column('Code', 1),
        column('Classification', 1.3),
        column('Onset', 1.2),
        column('Incubation window', 2.2),
        column('Link to the building', 1.5),
        column('Isolate', 1.2),
      ],
      rows,
      none: 'No case is recorded.',
    }),
    table({
      caption: 'Places by how much of the cases’ incubation they cover',
      columns: [
        column('Place', 3),
        numberColumn('In window of cases', 1.4),
        column('Cases', 3),
        numberColumn('Incubation covered', 1.4),
      ],
      rows: placeRows(context),
      note: 'Incubation covered is the sum over cases of the share of the incubation distribution that falls on days spent there; it ranks places and is no probability that a place was the source.',
      none: 'No exposure is recorded.',
    }),
    ...(state.cases.incubation?.body.reason === undefined
      ? []
      : [told(`Reason for the window: ${said(state.cases.incubation.body.reason)}`)]),
  ]
}

function placeRows({ state, numbersOf }: ReportContext): Row[] {
  const total = caseWindows(state.cases).length
  return sharedParts(state).map(({ place, cases, exposures, inWindow, weight }) => ({
    cells: [
      place,
      `${inWindow} of ${total}`,
      cases.map(({ code, days }) => `${code} (${counted(days, 'day')})`).join(', '),
      weight.toFixed(2),
    ],
    entries: numbersOf(...exposures),
  }))
}

function definitionSaid({ state, numbersOf, cite }: ReportContext): Block {
  const id = definitionInUse(state.cases)
  const found = definitions.definitions.find((one) => one.id === id)
  const chosen = state.cases.incubation?.body.definition === id
  const words = `Incubation window: ${id} days before onset${chosen ? '' : ' (the widest in use, taken because none was chosen)'}.`
  const cites =
    found === undefined ? [] : sourcesOf(found.source).map(({ citation, known }) => cite({ source: citation, known }))
  return told(words, { entries: chosen ? numbersOf(state.cases.incubation) : [], cites })
}

/** Small numbers identify people: classification and month only. */
function countedCases({ state, numbersOf }: ReportContext): Block[] {
  const cases = [...state.cases.cases.values()]
  const months = [...new Set(cases.map(({ body }) => body.onsetDate?.slice(0, 7)))].sort((a, b) =>
    (a ?? '~') < (b ?? '~') ? -1 : 1,
  )
  const rows: Row[] = months.map((month) => {
    const own = cases.filter(({ body }) => body.onsetDate?.slice(0, 7) === month)
    const counts = CLASSIFICATIONS.map((wanted) => `${own.filter(({ body }) => body.classification === wanted).length}`)
    return {
      cells: [month === undefined ? 'onset not known' : monthWords(month), ...counts],
      entries: numbersOf(...own),
    }
  })
  return [
    told('Cases are counted only. Codes, days of onset, windows and places of stay are withheld.'),
    table({
      caption: 'Cases by month of onset and classification',
      columns: [column('Month of onset', 2), ...CLASSIFICATIONS.map((one) => numberColumn(one, 1))],
      rows,
      none: 'No case is recorded.',
    }),
  ]
}
