import { findCalculation } from '@rillmark/science/catalogue/catalogue.ts'
import { procedureIn } from '../plan/procedures-in-use.ts'
import type { Procedure } from '../procedures/procedure.ts'
import { SAMPLE_KIND_WORDS } from '../entry/fields.ts'
import { calculationsUsed } from './calculations-used.ts'
import type { ReportContext } from './context.ts'
import type { Block, Cell, Row, Section } from './model.ts'
import { predictedMethod } from './predicted-method.ts'
import { column, heading, table, told } from './words.ts'

/** By which procedures, criteria and calculations, each with its sources. */
export function methodSection(context: ReportContext): Section {
  const blocks: Block[] = [
    heading('Procedures'),
    procedureTable(context),
    heading('Criteria'),
    criteriaSaid(context),
    heading('Calculations'),
    calculationTable(context),
    ...recordedBlocks(context),
    ...predictedMethod(context),
    heading('Sources'),
    told(
      '“Seen” was read in the publication named, “computed” recomputed from it, “memory” is common knowledge of the trade and to be checked before use.',
    ),
    { block: 'sources' },
  ]
  return { id: 'method', title: 'Method and sources', blocks }
}

function procedureTable(context: ReportContext): Block {
  const { state, numbersOf, cite } = context
  const used = new Map<string, string[]>()
  for (const adopted of state.plan.rounds.values())
    for (const stop of adopted.body.plan.stops)
      for (const { procedure } of stop.samples)
        used.set(procedure, [...new Set([...(used.get(procedure) ?? []), adopted.id])])
  const rows = [...used].map(([id, adoptions]): Row => {
    const procedure = procedureIn(state, id)
    const cites = procedure === undefined ? [] : sourcesOfProcedure(procedure).map(cite)
    return {
      cells: [
        procedure?.title ?? id,
        procedure === undefined ? 'not carried by this program' : `${procedure.version}, ${procedure.date}`,
        procedure?.sampleKinds.map((kind) => SAMPLE_KIND_WORDS[kind]).join(', ') ?? '',
        [...new Set(cites)]
          .sort((a, b) => a - b)
          .map((number) => `[${number}]`)
          .join(' '),
      ],
      entries: numbersOf(...adoptions.map((adoption) => ({ id: adoption }))),
    }
  })
  return table({
    caption: 'Procedures the plans name',
    columns: [column('Procedure', 2.4), column('Version', 1.8), column('Samples', 2.6), column('Sources', 2)],
    rows,
    none: 'No plan names a procedure.',
  })
}

function sourcesOfProcedure({ steps, hold }: Procedure): { source: string; known: string }[] {
  const figures = [
    ...steps,
    ...steps.flatMap(({ volume, dose, timer, headspace, caution }) => [volume, dose, timer, headspace, caution]),
  ]
  return [...figures, hold?.hours, hold?.transport].flatMap((one) =>
    one === undefined ? [] : [{ source: one.source, known: one.known }],
  )
}

function criteriaSaid({ criteria, cite, state, numbersOf }: ReportContext): Block {
  const entries = numbersOf(state.findings.criteria)
  if (criteria.kind === 'none') return told('No criteria set was chosen.')
  if (criteria.kind === 'missing')
    return told(`${criteria.id}, version ${criteria.version}: ${criteria.reason}.`, { entries })
  const { set, own } = criteria
  const cites = [
    set.counts,
    ...set.scales.flatMap(({ bands }) => bands),
    ...(set.share?.bands ?? []),
    ...(set.followUp === undefined ? [] : [set.followUp]),
  ].map(cite)
  return told(
    `${set.title}, version ${set.version} of ${set.date}, ${set.jurisdiction}${own ? '; the investigator’s own set, kept whole in the record' : ''}. Status: ${set.status}. It counts ${set.counts.taxon}.`,
    { entries, cites: [...new Set(cites)].sort((a, b) => a - b) },
  )
}

/** Calculations someone put into the record, as they were worked: the program of that day may have differed from today's. */
function recordedBlocks({ state, numbersOf, said }: ReportContext): Block[] {
  const { calculations } = state.brief
  if (calculations.length === 0) return []
  return [
    table({
      caption: 'Calculations put into the record',
      columns: [column('Calculation', 1.6), column('Working', 5)],
      rows: calculations.map((entry) => ({
        cells: [recordedName(entry.body), said(entry.body.working)],
        entries: numbersOf(entry),
      })),
      none: '',
    }),
  ]
}

function recordedName({ id, version }: { id: string; version?: number | undefined }): Cell {
  const text = findCalculation(id)?.title ?? id
  return version === undefined ? text : { text, sub: `version ${version}` }
}

/** What this report's own numbers were computed with, from the descriptors of the calculations. */
function calculationTable(context: ReportContext): Block {
  const rows = calculationsUsed(context).map(
    ({ calculation, where, putIn, entries }): Row => ({
      cells: [
        { text: calculation.title, sub: `version ${calculation.version}; ${where.join('; ')}` },
        putIn.join('; '),
        calculation.formula.text,
        Object.entries(calculation.formula.symbols)
          .map(([symbol, field]) => `${symbol} = ${field}`)
          .join('; '),
        calculation.sources.map(({ citation, known }) => `[${context.cite({ source: citation, known })}]`).join(' '),
      ],
      entries,
    }),
  )
  return table({
    caption: 'Calculations behind numbers of this report',
    columns: [
      column('Calculation', 2),
      column('Put in', 1.9),
      column('Equation', 2.3),
      column('Symbols', 2.3),
      column('Sources', 0.8),
    ],
    rows,
    none: 'No calculation stands behind a number of this report.',
  })
}
