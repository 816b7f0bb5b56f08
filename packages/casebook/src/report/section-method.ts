import { findCalculation } from '@rillmark/science/catalogue/catalogue.ts'
import type { Calculation } from '@rillmark/science/catalogue/descriptor.ts'
import { procedureIn } from '../plan/procedures-in-use.ts'
import type { Procedure } from '../procedures/procedure.ts'
import { SAMPLE_KIND_WORDS } from '../entry/fields.ts'
import type { ReportContext } from './context.ts'
import type { Block, Row, Section } from './model.ts'
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
        cells: [findCalculation(entry.body.id)?.title ?? entry.body.id, said(entry.body.working)],
        entries: numbersOf(entry),
      })),
      none: '',
    }),
  ]
}

/** What this report's own numbers were computed with, from the descriptors of the calculations. */
function calculationTable(context: ReportContext): Block {
  const rows = calculationsUsed(context).map(
    ({ calculation, where, entries }): Row => ({
      cells: [
        { text: calculation.title, sub: where },
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
    columns: [column('Calculation', 2), column('Equation', 3), column('Symbols', 3), column('Sources', 0.9)],
    rows,
    none: 'No calculation stands behind a number of this report.',
  })
}

function calculationsUsed({
  state,
  rows,
  redacted,
  numbersOf,
}: ReportContext): { calculation: Calculation; where: string; entries: number[] }[] {
  const measures = [...state.control.measures.values()].map(({ ordered }) => ordered)
  const plans = [...state.plan.rounds.values()]
  const neutralized = [...state.fieldwork.samples.values()].filter(({ body }) => body.neutralizer !== undefined)
  const used: [id: string, where: string, entries: number[]][] = [
    ...(state.cases.cases.size > 0 && !redacted
      ? [
          ['incubation', 'windows and shared places', numbersOf(...state.cases.cases.values())] as [
            string,
            string,
            number[],
          ],
        ]
      : []),
    ...(plans.length > 0
      ? ([
          ['detection-probability', 'what a plan can detect', numbersOf(...plans)],
          ['upper-bound-after-negatives', 'what could be missed', numbersOf(...plans)],
        ] as [string, string, number[]][])
      : []),
    ...(rows.some(({ results }) => results.length > 0)
      ? [
          ['proportion', 'shares of positive samples', numbersOf(...state.results.results)] as [
            string,
            string,
            number[],
          ],
        ]
      : []),
    ...(neutralized.length > 0
      ? [['neutralizer', 'neutralizer against residual', numbersOf(...neutralized)] as [string, string, number[]]]
      : []),
    ...state.brief.calculations.map((entry): [string, string, number[]] => [
      entry.body.id,
      'put into the record',
      numbersOf(entry),
    ]),
    ...measures.flatMap((ordered): [string, string, number[]][] => {
      const id = ordered.body.calculation?.id
      return id === undefined ? [] : [[id, 'measure ordered', numbersOf(ordered)]]
    }),
  ]
  return [...new Map(used.map((one) => [one[0], one])).values()].flatMap(([id, where, entries]) => {
    const calculation = findCalculation(id)
    return calculation === undefined ? [] : [{ calculation, where, entries }]
  })
}
