// How long a report of 200 samples takes, beside what cannot be avoided: setting the same words as plain paragraphs, without tables or drawing.
import { reportState } from '@rillmark/casebook/report/report.fixture.ts'
import { dayOfRecord } from '@rillmark/casebook/report/day-of-record.ts'
import type { Block, Cell, ReportModel } from '@rillmark/casebook/report/model.ts'
import { reportModel } from '@rillmark/casebook/report/report-model.ts'
import { reportPdf } from '@rillmark/exchange/report/report-pdf.ts'
import { compileTypst } from '@rillmark/exchange/typst/compile.ts'

const BUDGET_MS = 3000
const SAMPLES = 200
const ROUNDS = 5

const state = reportState({ samples: SAMPLES / 2 + 4, rounds: 2 })
const head = { sequence: state.record.entries.length, hash: 'a'.repeat(64) }
const modelOf = (): ReportModel => reportModel(state, { head, variant: 'full', today: dayOfRecord(state) })
const collected = state.fieldwork.samples.size
if (collected < SAMPLES) throw new Error(`The benchmark needs ${SAMPLES} samples: got ${collected}`)

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

/** Milliseconds of the first run, as a person waits for it, and the median of the following ones. */
function timed(act: () => unknown): { firstMs: number; medianMs: number } {
  const once = (): number => {
    const start = performance.now()
    act()
    return performance.now() - start
  }
  const firstMs = once()
  const later = Array.from({ length: ROUNDS }, once).sort((a, b) => a - b)
  return { firstMs, medianMs: later[Math.floor(ROUNDS / 2)] ?? firstMs }
}

// A changed hash each time, so that the compiler's memory of the page before does not help.
let run = 0
const fresh = (model: ReportModel): ReportModel => {
  run += 1
  const hash = run.toString(16).padStart(64, '0')
  return { ...model, header: { ...model.header, title: `Marram House ${run}`, head: { ...model.header.head, hash } } }
}

const whole = timed(() => reportPdf(fresh(modelOf())))
const deriving = timed(modelOf)
const words = modelOf().sections.flatMap(({ blocks }) => blocks.flatMap(plain))
const bare = timed(() => {
  run += 1
  const text = [`run ${run}`, ...words].join('\n\n')
  return compileTypst({ template: 'specimen.typ', data: { text }, asOf: '2026-03-02T08:00:00.000Z' })
})
console.log(
  `${collected} samples, ${state.record.entries.length} entries: first ${whole.firstMs.toFixed(0)} ms, then ${whole.medianMs.toFixed(0)} ms` +
    ` (budget ${BUDGET_MS} ms), of which ${deriving.medianMs.toFixed(0)} ms for the model;` +
    ` ${(whole.medianMs / bare.medianMs).toFixed(1)} × the time the same compiler takes to set the same words as plain paragraphs (${bare.medianMs.toFixed(0)} ms)`,
)
if (whole.firstMs > BUDGET_MS) process.exitCode = 1
