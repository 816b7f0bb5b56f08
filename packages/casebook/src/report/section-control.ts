import { withSmallestPInWords } from '@rillmark/science/catalogue/answer-words.ts'
import { findCalculation } from '@rillmark/science/catalogue/catalogue.ts'
import { controlView, type MeasureView } from '../control/control-view.ts'
import type { Proof } from '../control/measure-progress.ts'
import { placesWords, proofWord } from '../control/proof-words.ts'
import { amountWords } from '../control/target-words.ts'
import { wallClock } from '../units/local-time.ts'
import { counted } from '../units/counted.ts'
import type { ReportContext } from './context.ts'
import type { Block, Cell, Row, Section } from './model.ts'
import { column, table, told } from './words.ts'
import { capital } from '../units/capital.ts'

export function controlSection(context: ReportContext): Section {
  const { measures } = controlView(context.state, context.today)
  const blocks: Block[] = [
    table({
      caption: 'Measures ordered',
      columns: [
        column('Measure', 2.6),
        column('Stage', 1.1),
        column('Answers for it', 1.5),
        column('Due', 1),
        column('Target', 1.5),
        column('State', 1.8),
      ],
      rows: measures.map((measure) => measureRow(context, measure)),
      none: 'No measure was ordered.',
    }),
    ...measures.flatMap((measure) => proofBlocks(context, measure)),
  ]
  return { id: 'control', title: 'Control', blocks }
}

function targetWords({ measure }: MeasureView, { units }: ReportContext): string {
  const { target } = measure.ordered.body
  return target === undefined ? 'none set' : amountWords(target, units)
}

function measureRow(context: ReportContext, view: MeasureView): Row {
  const { numbersOf, named, said } = context
  const { ordered, completed } = view.measure
  const { measure, stage, where, owner, dueOn, notes } = ordered.body
  const proved = view.places.length === 0 ? '' : placesWords(view.measure, view)
  const reason = completed?.body.reason
  const end =
    completed === undefined
      ? proved
      : [completed.body.completedOn, proved, reason === undefined ? '' : said(reason)]
          .filter((one) => one !== '')
          .join('; ')
  return {
    cells: [
      {
        text: measure,
        strong: true,
        sub: [said(where), notes === undefined ? '' : said(notes)].filter((one) => one !== '').join('. '),
      },
      stage,
      named(owner),
      dueOn ?? 'not set',
      targetWords(view, context),
      { text: view.state === 'late' ? `late by ${counted(view.daysLate, 'day')}` : view.state, sub: end },
    ],
    entries: numbersOf(ordered, completed),
  }
}

/** Outlet by outlet: what was to be reached and what was, also where nothing was written down. */
function proofBlocks(context: ReportContext, view: MeasureView): Block[] {
  const { ordered, proofs } = view.measure
  const { said } = context
  if (view.places.length === 0 && proofs.length === 0) return calculationSaid(context, view)
  const rows: Row[] = view.places.map(({ component, proof }) => ({
    cells: [
      context.place(component),
      targetWords(view, context),
      ...proofCells(context, proof),
      proof === undefined ? 'nothing written down' : proofSaid(view, proof),
    ],
    entries: context.numbersOf(proof ?? ordered),
  }))
  const elsewhere: Row[] = proofs
    .filter(({ body }) => body.component === undefined || !ordered.body.components.includes(body.component))
    .map((proof) => ({
      cells: [
        proof.body.component === undefined ? 'whole measure' : context.place(proof.body.component),
        targetWords(view, context),
        ...proofCells(context, proof),
        proofSaid(view, proof),
      ],
      entries: context.numbersOf(proof),
    }))
  return [
    ...calculationSaid(context, view),
    table({
      caption: `${capital(ordered.body.measure)}, ${said(ordered.body.where)}: what was ${ordered.body.target === undefined ? 'done' : 'reached'} at each place`,
      columns: [
        column('Place', 2.4),
        column('Target', 1.6),
        column('Achieved', 1.6),
        column('When', 1.5),
        column('Proved by', 1.4),
        column('So', 1.2),
      ],
      rows: [...rows, ...elsewhere],
      none: 'Nothing is written down.',
    }),
  ]
}

function proofSaid({ measure }: MeasureView, proof: Proof): Cell {
  const word = proofWord(measure, proof)
  return word.startsWith('not') ? { text: word, strong: true } : word
}

function proofCells(
  { named, units }: ReportContext,
  proof: MeasureView['places'][number]['proof'],
): [string, string, string] {
  if (proof === undefined) return ['', '', '']
  const { achieved, at, by } = proof.body
  return [
    achieved === undefined ? 'not measured' : amountWords(achieved, units),
    wallClock({ instant: at, offset: proof.offset }),
    named(by),
  ]
}

function calculationSaid({ numbersOf, cite }: ReportContext, { measure: { ordered } }: MeasureView): Block[] {
  const { calculation } = ordered.body
  if (calculation === undefined) return []
  const known = findCalculation(calculation.id)
  const cites = (known?.sources ?? []).map(({ citation, known: how }) => cite({ source: citation, known: how }))
  return [
    told(
      `Worked out with “${known?.title ?? calculation.id}”: ${flat(calculation.input)} gives ${flat(withSmallestPInWords(calculation.result))}.`,
      { entries: numbersOf(ordered), cites },
    ),
  ]
}

const SHOWN_DIGITS = 5

/** Field names and values as they were recorded, numbers to five digits. */
function flat(value: unknown): string {
  if (typeof value === 'number') return String(Number(value.toPrecision(SHOWN_DIGITS)))
  if (typeof value !== 'object' || value === null) return String(value)
  return Object.entries(value)
    .map(([key, inner]) => `${key} ${typeof inner === 'object' && inner !== null ? `(${flat(inner)})` : flat(inner)}`)
    .join(', ')
}
