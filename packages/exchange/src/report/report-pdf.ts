import { entriesNamed, entryNumberWords } from '@rillmark/casebook/report/entry-numbers.ts'
import type { Block, Cell, ReportModel, Said, Section } from '@rillmark/casebook/report/model.ts'
import { compileTypst } from '../typst/compile.ts'

const SHORT_HASH = 12
/** Wider drawings than this take the page across. */
const ACROSS_FROM = 0.9

/** The report as PDF/A-2a. The same model gives the same bytes. */
export function reportPdf(model: ReportModel): Uint8Array {
  return compileTypst({ template: 'report.typ', data: reportData(model), asOf: model.header.asOf })
}

/** The model with what is only a matter of printing worked out: entry numbers as words, short hash, how a drawing lies. */
function reportData({ header, sections, sources, takenOut }: ReportModel): object {
  const redacted = header.variant === 'redacted'
  return {
    header,
    redacted,
    kindWords: redacted ? 'Report, redacted variant' : 'Report',
    headShort: header.head.hash.slice(0, SHORT_HASH),
    sections: sections.map(printedSection),
    sources,
    takenOut,
  }
}

const printedSection = ({ title, blocks }: Section): object => ({ title, blocks: blocks.map(printedBlock) })

function printedBlock(block: Block): object {
  switch (block.block) {
    case 'text':
      return { ...block, ...marks(block) }
    case 'facts':
      return { block: block.block, facts: block.facts.map((fact) => ({ ...fact, ...marks(fact) })) }
    case 'list':
      return { block: block.block, items: block.items.map((item) => ({ ...item, ...marks(item) })) }
    case 'table':
      return printedTable(block)
    case 'figure':
      return { ...block, flipped: block.width > ACROSS_FROM * block.height }
    default:
      return block
  }
}

/** Characters up to which a cell is kept on one page; a longer text runs on to the next. */
const KEPT_WHOLE = 600

const lengthOf = (cell: Cell): number =>
  typeof cell === 'string' ? cell.length : cell.text.length + (cell.sub?.length ?? 0)

/** Entry numbers longer than this take a column of fixed width and more than one line. */
const ONE_LINE = 14

function printedTable(block: Extract<Block, { block: 'table' }>): object {
  const rows = block.rows.map(({ cells, entries }) => ({
    cells,
    entryWords: entryNumberWords(entries),
    whole: cells.every((cell) => lengthOf(cell) <= KEPT_WHOLE),
  }))
  return { ...block, rows, wideEntries: rows.some(({ entryWords }) => entryWords.length > ONE_LINE) }
}

function marks({ entries = [], cites = [] }: Said): { entryWords: string; citesWords: string } {
  return { entryWords: entriesNamed(entries), citesWords: cites.map((number) => `[${number}]`).join(' ') }
}
