import type { Variant } from '@rillmark/casebook/report/model.ts'
import { makeReportPdf } from '@rillmark/exchange/report/make-report-pdf.ts'
import { statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { documentKind } from './document-kind.ts'
import { unitsAsked, unitsQuery } from './reader-units.ts'

const reportOf = (variant: Variant, title: string) =>
  documentKind({
    title,
    contentType: 'application/pdf',
    fileName: ({ investigation }) => `${investigation}-report${variant === 'redacted' ? '-redacted' : ''}.pdf`,
    query: unitsQuery,
    heavy: true,
    make: ({ state, head, query }) =>
      head.sequence === 0
        ? { issues: [statedIssue('', { expected: 'an investigation with entries', received: 'none of this id' })] }
        : makeReportPdf(state, { head, variant, units: unitsAsked(query) }),
  })

export const reportDocument = reportOf('full', 'Report')
export const redactedReportDocument = reportOf('redacted', 'Report, redacted: without what could point to a person')
