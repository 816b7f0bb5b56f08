import type { InvestigationState } from '../state/investigation-state.ts'
import { type ReportContext, type ReportOptions, reportContext } from './context.ts'
import { headerOf } from './header.ts'
import type { ReportModel, Section } from './model.ts'
import { cleaned, TAKEN_OUT } from './redaction.ts'
import { buildingSection } from './section-building.ts'
import { casesSection } from './section-cases.ts'
import { conditionsSection } from './section-conditions.ts'
import { controlSection } from './section-control.ts'
import { custodySection } from './section-custody.ts'
import { fieldworkSection } from './section-fieldwork.ts'
import { findingsSection } from './section-findings.ts'
import { fittedSection } from './section-fitted.ts'
import { followUpSection } from './section-follow-up.ts'
import { limitsSection } from './section-limits.ts'
import { methodSection } from './section-method.ts'
import { planSection } from './section-plan.ts'
import { recordSection } from './section-record.ts'
import { resultsSection } from './section-results.ts'
import { summarySection } from './section-summary.ts'

/** In the order they are read. Method and sources come after every section that cites. */
const SECTIONS: readonly ((context: ReportContext) => Section | undefined)[] = [
  summarySection,
  casesSection,
  buildingSection,
  conditionsSection,
  fittedSection,
  planSection,
  fieldworkSection,
  custodySection,
  resultsSection,
  findingsSection,
  controlSection,
  followUpSection,
  limitsSection,
  methodSection,
  recordSection,
]

/**
 * The whole report as plain data: what was done, found and concluded, every row with the numbers of the entries it rests on. The PDF and
 * the outline on screen are both made from it, so they can't differ. It computes nothing of the trade; it tells what the steps' views say.
 * @throws RangeError when the head is not that of the entries the state was derived from
 */
export function reportModel(state: InvestigationState, options: ReportOptions): ReportModel {
  const { head, variant } = options
  if (head.sequence !== state.record.entries.length)
    throw new RangeError(
      `Cannot report on a record because its head counts ${head.sequence} entries: got ${state.record.entries.length}`,
    )
  const context = reportContext(state, options)
  const sections = SECTIONS.flatMap((section) => section(context) ?? [])
  const model: ReportModel = {
    format: 'rillmark/report@1',
    header: headerOf(context),
    sections,
    sources: context.sources,
    takenOut: variant === 'redacted' ? TAKEN_OUT : [],
  }
  return variant === 'redacted' ? cleaned(model, context.private) : model
}
