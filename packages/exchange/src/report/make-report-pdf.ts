import type { Head } from '@rillmark/casebook/chain/link.ts'
import { dayOfRecord } from '@rillmark/casebook/report/day-of-record.ts'
import type { Variant } from '@rillmark/casebook/report/model.ts'
import { reportModel } from '@rillmark/casebook/report/report-model.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import type { DisplayUnits } from '@rillmark/casebook/units/display-units.ts'
import { reportPdf } from './report-pdf.ts'

/** The report of a record as PDF. It speaks of the day of the last entry: no clock is read, so the same record gives the same bytes. */
export function makeReportPdf(
  state: InvestigationState,
  { head, variant, units }: { head: Head; variant: Variant; units?: DisplayUnits },
): Uint8Array {
  return reportPdf(reportModel(state, { head, variant, units, today: dayOfRecord(state) }))
}
