import { expect, type Page, test } from '@playwright/test'
import { DemoDesk } from '../../demo/desk.ts'
import { openInvestigation } from '../../demo/scenario/brief.ts'
import { describeBuilding, sweepDevices } from '../../demo/scenario/building.ts'
import { recordCases } from '../../demo/scenario/cases.ts'
import { adoptPlan } from '../../demo/scenario/plan.ts'
import { registerInstruments, visitStops } from '../../demo/scenario/visit.ts'
import { shiftEntries } from '../../demo/shift.ts'
import { orderShockDose, proveEachOutlet } from './job/control.ts'
import { packSamples, receiveInLaboratory, sealAndHandOver } from './job/custody.ts'
import { chooseCriteria, conclude, seePositives } from './job/findings.ts'
import { closeAgainstRule, startFollowUp, takeCalendar } from './job/follow-up.ts'
import { watchPage } from './job/page-watch.ts'
import { button, dialogOf, field, untilSynced } from './job/person.ts'
import { amendTemperature, checkChain } from './job/record.ts'
import { redactReport, writeReport } from './job/report.ts'
import { importResults } from './job/results.ts'

test.use({ actionTimeout: 10_000 })

test('from the sampled building to the report: custody, results, findings, control, follow-up, report, record', async ({
  page,
}) => {
  test.setTimeout(300_000)
  const told = watchPage(page)
  await openSampled(page)

  const box = await packSamples(page)
  await sealAndHandOver(page, box)
  const broken = await receiveInLaboratory(page, box)
  await importResults(page, broken)
  await chooseCriteria(page)
  const [positive = ''] = await seePositives(page)
  await conclude(page, positive)
  await orderShockDose(page)
  await proveEachOutlet(page)
  await startFollowUp(page)
  await takeCalendar(page)
  await closeAgainstRule(page)
  await writeReport(page)
  await redactReport(page)
  await amendTemperature(page)
  await checkChain(page)
  expect(told()).toEqual([])
})

/** A building of which eight samples were taken last week, put on the server as another device would, and opened here under a name. */
async function openSampled(page: Page): Promise<void> {
  const investigation = `second-half-${Date.now().toString(36)}`
  const desk = new DemoDesk(investigation)
  openInvestigation(desk)
  recordCases(desk, { from: '2026-03-02T00:00', to: '2026-03-04T00:00' })
  describeBuilding(desk)
  sweepDevices(desk)
  adoptPlan(desk, { code: 'R1', at: '2026-03-03T16:10', scheduledOn: '2026-03-04', samples: 8 })
  registerInstruments(desk)
  visitStops(desk, { round: 'R1', startsAt: '2026-03-04T08:00', hotC: () => 47, residualMgPerL: 1.9 })
  const yesterday = new Date(Date.now() - 86_400_000).toISOString().slice(0, 10)
  const entries = shiftEntries(desk.entries, { from: '2026-03-04', to: yesterday })
  const answer = await page.request.post(`/api/investigations/${investigation}/entries`, { data: { entries } })
  expect(await answer.json()).toMatchObject({ refused: [] })

  await page.goto(`/i/${investigation}/brief`)
  await untilSynced(page)
  await button(page, 'Preferences').click()
  const preferences = dialogOf(page, 'Preferences')
  await field(preferences, 'Who is writing').fill('R. Investigator')
  await button(preferences, 'Done').click()
}
