import { expect, type Page, test } from '@playwright/test'
import { describeBuilding, sweepDevices, tieCaseToOutlet } from './job/building.ts'
import { orderShockDose, proveEachOutlet } from './job/control.ts'
import { packSamples, receiveInLaboratory, sealAndHandOver } from './job/custody.ts'
import { walkOneStopInFull, walkOtherStops } from './job/fieldwork.ts'
import { chooseCriteria, conclude, seePositives } from './job/findings.ts'
import { closeAgainstRule, startFollowUp, takeCalendar } from './job/follow-up.ts'
import { watchPage } from './job/page-watch.ts'
import { exportAndVerify } from './job/package.ts'
import { adoptPlan, takePapers } from './job/plan.ts'
import { amendTemperature, checkChain } from './job/record.ts'
import { redactReport, writeReport } from './job/report.ts'
import { importResults } from './job/results.ts'
import { recordCases, startInvestigation } from './job/start-and-cases.ts'
import { pretendDay } from './job/pretend-day.ts'

test.use({ actionTimeout: 10_000 })

// The whole job, lived on a blank investigation by keyboard and mouse. The clock starts on a day of our own, so that hold times,
// rounds and dates are the same whenever the test runs; every figure typed is invented.

test('an investigation is lived from the first call to the printed report', async ({ page }) => {
  test.setTimeout(240_000)
  const told = watchPage(page)
  await pretendDay(page, '2026-03-02T09:00:00')
  const investigation = await test.step('start', () => startInvestigation(page))
  await test.step('cases', () => recordCases(page))
  await test.step('building', () => describeBuilding(page))
  await test.step('sweep', () => sweepDevices(page))
  await test.step('a case at its outlet', () => tieCaseToOutlet(page))
  const labels = await test.step('plan', () => adoptPlan(page))
  await test.step('papers', () => takePapers(page, labels))
  await later(page, 47) // the day the round was planned for
  await test.step('one stop in full', () => walkOneStopInFull(page))
  await test.step('the other stops', () => walkOtherStops(page))
  await later(page, 2) // the walk is done
  const box = await test.step('packed', () => packSamples(page))
  await test.step('sealed and handed over', () => sealAndHandOver(page, box))
  await later(page, 20) // a night on the way
  const broken = await test.step('received', () => receiveInLaboratory(page, box))
  await later(page, 10 * 24) // the plates have grown
  await test.step('results', () => importResults(page, broken))
  await test.step('criteria', () => chooseCriteria(page))
  const [positive = ''] = await test.step('positives', () => seePositives(page))
  await test.step('conclusion', () => conclude(page, positive))
  await later(page, 24) // the owner was heard
  await test.step('measure', () => orderShockDose(page))
  await test.step('proof', () => proveEachOutlet(page))
  await later(page, 2 * 24) // the dose has worked and was flushed out
  await test.step('follow-up', () => startFollowUp(page))
  await test.step('calendar', () => takeCalendar(page))
  await later(page, 30 * 24) // a round was due meanwhile
  await test.step('closed', () => closeAgainstRule(page))
  await test.step('report', () => writeReport(page))
  await test.step('redacted report', () => redactReport(page))
  await test.step('amendment', () => amendTemperature(page))
  await test.step('chain', () => checkChain(page))
  await test.step('package', () => exportAndVerify(page, investigation))
  expect(told()).toEqual([])
})

const HOUR_MS = 3_600_000

/** Hours go by on the page's clock. */
const later = (page: Page, hours: number): Promise<void> => page.clock.fastForward(hours * HOUR_MS)
