import type { KitSection } from '@rillmark/casebook/plan/kit-list.ts'
import { compileTypst } from '../typst/compile.ts'
import type { RoundPapers } from './round-documents.ts'

/** The packing list of a round, to be ticked off. */
export function kitListPdf(papers: RoundPapers, sections: readonly KitSection[]): Uint8Array {
  const { title, round, paper, asOf, plan, scheduledOn } = papers
  const { samples, hoursPerTeam } = plan.totals
  const stops = plan.stops.length
  const teams = Math.max(1, ...plan.stops.map(({ team }) => team ?? 1))
  const facts = { stops, samples, teams, hours: hoursPerTeam.toFixed(1), scheduledOn }
  return compileTypst({ template: 'kit-list.typ', data: { title, round, paper, facts, sections }, asOf })
}
