import { kitList } from '@rillmark/casebook/plan/kit-list.ts'
import { roundCode } from '@rillmark/casebook/plan/kinds.ts'
import { proceduresIn } from '@rillmark/casebook/plan/procedures-in-use.ts'
import { kitListPdf } from '@rillmark/exchange/plan/kit-list-pdf.ts'
import { labelsPdf } from '@rillmark/exchange/plan/labels-pdf.ts'
import { residualWords } from '@rillmark/exchange/plan/residual-words.ts'
import { roundPapers } from '@rillmark/exchange/plan/round-documents.ts'
import { runSheetsPdf } from '@rillmark/exchange/plan/run-sheets-pdf.ts'
import * as z from 'zod'
import { documentKind } from './document-kind.ts'
import { unitsAsked, unitsQuery } from './reader-units.ts'

const paper = z.enum(['a4', 'letter']).optional()
const query = z.strictObject({ round: roundCode.optional(), paper })
const teamQuery = query.extend({
  ...unitsQuery.shape,
  team: z.coerce.number().int().min(1).max(20).optional(),
})
const named =
  (name: string) =>
  ({ investigation, query }: { investigation: string; query: { round?: string | undefined } }) =>
    `${investigation}-${query.round ?? 'round'}-${name}.pdf`

export const labelsDocument = documentKind({
  title: 'Labels of a round',
  contentType: 'application/pdf',
  fileName: named('labels'),
  query,
  heavy: true,
  make: ({ state, query }) => {
    const papers = roundPapers(state, query)
    return 'issues' in papers ? papers : labelsPdf(papers)
  },
})

export const runSheetsDocument = documentKind({
  title: 'Run sheets of a round',
  contentType: 'application/pdf',
  fileName: named('run-sheets'),
  query: teamQuery,
  heavy: true,
  make: ({ state, query }) => {
    const papers = roundPapers(state, query)
    if ('issues' in papers) return papers
    const residual = residualWords(state.building.system?.supply.disinfectant.kind)
    return runSheetsPdf(papers, {
      procedures: proceduresIn(state),
      team: query.team,
      residual,
      units: unitsAsked(query),
    })
  },
})

export const kitListDocument = documentKind({
  title: 'Kit list of a round',
  contentType: 'application/pdf',
  fileName: named('kit-list'),
  query,
  heavy: true,
  make: ({ state, query }) => {
    const papers = roundPapers(state, query)
    if ('issues' in papers) return papers
    const disinfectant = state.building.system?.supply.disinfectant.kind
    return kitListPdf(papers, kitList({ plan: papers.plan, procedures: proceduresIn(state), disinfectant }))
  },
})
