import type { DocumentKind } from './document-kind.ts'

/** Every kind of document, loaded when it is asked for. To add one, write `documents/<kind>.ts` and add its line. */
export const DOCUMENTS: Readonly<Record<string, () => Promise<DocumentKind>>> = {
  'diagram.svg': async () => (await import('./diagram.ts')).diagramDocument,
  'labels.pdf': async () => (await import('./plan-papers.ts')).labelsDocument,
  'run-sheets.pdf': async () => (await import('./plan-papers.ts')).runSheetsDocument,
  'kit-list.pdf': async () => (await import('./plan-papers.ts')).kitListDocument,
  'submission.csv': async () => (await import('./submission.ts')).submissionCsvDocument,
  'submission.pdf': async () => (await import('./submission.ts')).submissionPdfDocument,
  'follow-up.ics': async () => (await import('./follow-up.ts')).followUpDocument,
  'report.pdf': async () => (await import('./report.ts')).reportDocument,
  'report-redacted.pdf': async () => (await import('./report.ts')).redactedReportDocument,
  'receipt.json': async () => (await import('./receipt.ts')).receiptJsonDocument,
  'receipt.pdf': async () => (await import('./receipt.ts')).receiptPdfDocument,
  'package.zip': async () => (await import('./package.ts')).packageDocument,
}
