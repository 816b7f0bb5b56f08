// How long a report of 200 samples takes, beside what cannot be avoided: setting the same words as plain paragraphs, without tables or drawing.
import { reportState } from '@rillmark/casebook/report/report.fixture.ts'
import { dayOfRecord } from '@rillmark/casebook/report/day-of-record.ts'
import type { Block, Cell, ReportModel } from '@rillmark/casebook/report/model.ts'
import { reportModel } from '@rillmark/casebook/report/report-model.ts'
import { reportPdf } from '@rillmark/exchange/report/report-pdf.ts'
import { compileTypst } from '@rillmark/exchange/typst/compile.ts'
import { type Measurement, medianMs } from './measure.ts'

const BUDGET_MS = 3000
const SAMPLES = 200
const ROUNDS = 5

const textOf = (cell: Cell): string => (typeof cell === 'string' ? cell : `${cell.text} ${cell.sub ?? ''}`)

/** Every word of a block as paragraphs. */
function plain(block: Block): string[] {
  switch (block.block) {
    case 'table':
      return [block.caption, ...block.rows.map(({ cells }) => cells.map(textOf).join(' '))]
    case 'facts':
      return block.facts.map(({ name, text }) => `${name} ${text}`)
    case 'list':
      return block.items.map(({ text }) => text)
    case 'heading':
    case 'text':
      return [block.text]
    default:
      return []
  }
}

/** Each run has another head and title, so that the compiler's memory of the run before does not help. */
function fresh(model: ReportModel, run: number): ReportModel {
  const hash = run.toString(16).padStart(64, '0')
  const { header } = model
  return { ...model, header: { ...header, title: `Marram House ${run}`, head: { ...header.head, hash } } }
}

export async function measure(): Promise<Measurement[]> {
  const state = reportState({ samples: SAMPLES / 2 + 4, rounds: 2 })
  const collected = state.fieldwork.samples.size
  if (collected < SAMPLES) throw new Error(`The benchmark needs ${SAMPLES} samples: got ${collected}`)
  const head = { sequence: state.record.entries.length, hash: 'a'.repeat(64) }
  const modelOf = (): ReportModel => reportModel(state, { head, variant: 'full', today: dayOfRecord(state) })
  let run = 0
  const began = performance.now()
  reportPdf(fresh(modelOf(), run))
  const firstMs = performance.now() - began
  const whole = await medianMs(() => reportPdf(fresh(modelOf(), (run += 1))), ROUNDS)
  const words = modelOf().sections.flatMap(({ blocks }) => blocks.flatMap(plain))
  const bare = await medianMs(() => {
    const text = [`run ${(run += 1)}`, ...words].join('\n\n')
    return compileTypst({ template: 'specimen.typ', data: { text }, asOf: '2026-03-02T08:00:00.000Z' })
  }, ROUNDS)
  const of = `report of ${collected} samples, ${head.sequence} entries`
  const ratio = { to: 'the same compiler setting the same words as plain paragraphs', times: whole / bare }
  return [
    { what: `${of}, first time`, value: firstMs, unit: 'ms', budget: BUDGET_MS },
    { what: `${of}, then`, value: whole, unit: 'ms', budget: BUDGET_MS, ratio },
    { what: 'its model alone', value: await medianMs(modelOf, ROUNDS), unit: 'ms' },
  ]
}
