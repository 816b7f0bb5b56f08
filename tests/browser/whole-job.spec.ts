import { expect, test } from '@playwright/test'
import { describeBuilding, sweepDevices, tieCaseToOutlet } from './job/building.ts'
import { walkOneStopInFull, walkOtherStops } from './job/fieldwork.ts'
import { watchPage } from './job/page-watch.ts'
import { adoptPlan, takePapers } from './job/plan.ts'
import { recordCases, startInvestigation } from './job/start-and-cases.ts'

test.use({ actionTimeout: 10_000 })

// The whole job, lived on a blank investigation by keyboard and mouse. The clock starts on a day of our own, so that hold times,
// rounds and dates are the same whenever the test runs; every figure typed is invented.

test('an investigation is lived from the first call to the printed report', async ({ page }) => {
  test.setTimeout(240_000)
  const told = watchPage(page)
  await page.clock.install({ time: '2026-03-02T09:00:00' })
  await test.step('start', () => startInvestigation(page))
  await test.step('cases', () => recordCases(page))
  await test.step('building', () => describeBuilding(page))
  await test.step('sweep', () => sweepDevices(page))
  await test.step('a case at its outlet', () => tieCaseToOutlet(page))
  const labels = await test.step('plan', () => adoptPlan(page))
  await test.step('papers', () => takePapers(page, labels))
  await test.step('one stop in full', () => walkOneStopInFull(page))
  await test.step('the other stops', () => walkOtherStops(page))
  expect(told()).toEqual([])
})
