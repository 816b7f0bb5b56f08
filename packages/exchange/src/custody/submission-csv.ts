import { csvOf } from '../package/csv.ts'
import type { Submission } from './submission.ts'

export const SUBMISSION_COLUMNS = [
  'consignment',
  'seal',
  'label',
  'round',
  'sample kind',
  'place',
  'collected (local)',
  'offset from UTC',
  'volume (mL)',
  'neutralizer',
  'examine by (local)',
  'part of',
] as const

/** The submission sheet as a table a laboratory can read in: one row a sample (CSV, RFC 4180). Nothing in it runs as a formula. */
export function submissionCsv({ consignment, seal, samples }: Submission): string {
  return csvOf(
    SUBMISSION_COLUMNS,
    samples.map((sample) => [
      consignment,
      seal,
      sample.label,
      sample.round,
      sample.kind,
      sample.place,
      sample.collected,
      `UTC${sample.offset}`,
      sample.volumeMl,
      sample.neutralizer,
      sample.examineBy,
      sample.splitOf,
    ]),
  )
}
