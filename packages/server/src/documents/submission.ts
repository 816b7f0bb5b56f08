import { submissionOf } from '@rillmark/exchange/custody/submission.ts'
import { submissionCsv } from '@rillmark/exchange/custody/submission-csv.ts'
import { submissionPdf } from '@rillmark/exchange/custody/submission-pdf.ts'
import * as z from 'zod'
import { documentKind } from './document-kind.ts'
import { unitsAsked, unitsQuery } from './reader-units.ts'

const query = z.strictObject({ consignment: z.string().trim().min(1).max(40).optional() })
const pdfQuery = query.extend({
  ...unitsQuery.shape,
  paper: z.enum(['a4', 'letter']).optional(),
  codes: z.enum(['yes', 'no']).optional(),
})

const named =
  (ending: string) =>
  ({ investigation, query }: { investigation: string; query: { consignment?: string | undefined } }) =>
    `${investigation}-${slug(query.consignment ?? 'consignment')}-submission.${ending}`

/** A consignment's code as part of a file name. */
const slug = (code: string): string =>
  code
    .normalize('NFD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '') || 'consignment'

export const submissionCsvDocument = documentKind({
  title: 'Submission sheet of a consignment, as a table',
  contentType: 'text/csv; charset=utf-8',
  fileName: named('csv'),
  query,
  make: ({ state, query }) => {
    const submission = submissionOf(state, query)
    return 'issues' in submission ? submission : submissionCsv(submission)
  },
})

export const submissionPdfDocument = documentKind({
  title: 'Submission sheet of a consignment',
  contentType: 'application/pdf',
  fileName: named('pdf'),
  query: pdfQuery,
  heavy: true,
  make: ({ state, query }) => {
    const units = unitsAsked(query)
    const submission = submissionOf(state, { ...query, units })
    return 'issues' in submission
      ? submission
      : submissionPdf(submission, { paper: query.paper, codes: query.codes === 'yes', units })
  },
})
