import { DemoDesk } from '../../demo/desk.ts'
import { openInvestigation } from '../../demo/scenario/brief.ts'
import { describeBuilding } from '../../demo/scenario/building.ts'
import { adoptPlan } from '../../demo/scenario/plan.ts'
import { registerInstruments } from '../../demo/scenario/visit.ts'
import type { Requests } from './requests.ts'

/** Puts an investigation on the server in which a stop can be visited. @throws Error when it is refused */
export async function planVisit(investigation: string, requests: Requests): Promise<void> {
  const desk = new DemoDesk(investigation)
  openInvestigation(desk)
  describeBuilding(desk)
  adoptPlan(desk, { code: 'R1', at: '2026-03-03T16:10', scheduledOn: '2026-03-04', samples: 30 })
  registerInstruments(desk)
  const { refused } = await requests.push(investigation, desk.entries)
  if (refused.length > 0) throw new Error(`the plan was refused: ${JSON.stringify(refused)}`)
}
