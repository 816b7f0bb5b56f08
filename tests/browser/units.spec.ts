import { randomUUID } from 'node:crypto'
import { expect, type Page, test } from '@playwright/test'
import { DemoDesk } from '../../demo/desk.ts'
import { openInvestigation } from '../../demo/scenario/brief.ts'
import { describeBuilding } from '../../demo/scenario/building.ts'
import { adoptPlan } from '../../demo/scenario/plan.ts'
import { registerInstruments } from '../../demo/scenario/visit.ts'
import { watchPage } from './job/page-watch.ts'
import { button, choice, dialogOf, field, go, untilSynced } from './job/person.ts'
import { press, settleStop } from './job/stop.ts'
import { pretendDay } from './job/pretend-day.ts'

// Units are a matter of the person at the screen; the record is in °C. 140 °F = 60 °C and 141 °F = 60.56 °C by the definition of the scale.

test('a reading typed in °F stands in the record in °C, and in the report and on the next visit as it was typed', async ({
  page,
}) => {
  const told = watchPage(page)
  const investigation = await plannedRound(page)
  const stop = page.getByRole('listitem').filter({ hasText: '101 basin tap' }).getByRole('button').first()
  await expect(stop).toBeVisible()
  await preferUsUnits(page)
  await stop.press('Enter')
  const visit = page.locator('section.field-visit')
  await button(visit, 'Start this stop').click()
  await field(dialogOf(page, 'Who is writing?'), 'Your name').fill('S. Sampler')
  await page.keyboard.press('Enter')
  await settleStop(page, { visit, until: HOT_STEP })
  const shows = field(visit, 'Without the clock: what it shows')
  await shows.fill('140')
  await button(visit, 'Without the clock: what it shows in °C').click()
  await expect(shows).toHaveValue('60')
  await button(visit, 'Without the clock: what it shows in °F').click()
  await expect(shows).toHaveValue('140')
  await shows.fill('141')
  await press(visit, button(visit, 'Keep 141 °F, no curve'))
  await untilSynced(page)
  await page.reload()
  const report = await go(page, 'Report')
  await report.getByRole('heading', { name: 'Fieldwork' }).click()
  await expect(report.getByText('141 °F').first()).toBeVisible()
  await expect(report.getByText('60.56')).toHaveCount(0)
  const record = await go(page, 'Record')
  await expect(record.getByText('hot temperature 60.56 °C').first()).toBeVisible()
  const entries = await (await page.request.get(`/api/investigations/${investigation}/entries`)).text()
  expect(/"value":60\.56,"unit":"Cel"/.test(entries), 'the reading in the record').toBe(true)
  expect(told()).toEqual([])
})

test('figures typed into a calculator in US units are reckoned on and told as typed', async ({ page }) => {
  const told = watchPage(page)
  await page.goto('/calculators/mixed-temperature')
  await preferUsUnits(page)
  const main = page.getByRole('main')
  await field(main, 'Temperature of the hot water').fill('140')
  await field(main, 'Temperature of the cold water').fill('50')
  await field(main, 'Flow of hot water').fill('2')
  await field(main, 'Flow of cold water').fill('2')
  // equal flows of 60 °C and 10 °C meet at 35 °C, which is 95 °F
  await expect(main.getByText('95 °F', { exact: true }).first()).toBeVisible()
  await page.reload()
  await expect(field(main, 'Temperature of the hot water')).toHaveValue('140')
  expect(told()).toEqual([])
})

const HOT_STEP = 'Run until it is as hot as it gets'

async function preferUsUnits(page: Page): Promise<void> {
  await button(page, 'Preferences').click()
  const dialog = dialogOf(page, 'Preferences')
  await choice(dialog, { of: 'Units', name: 'US customary' }).check()
  await button(dialog, 'Done').click()
}

/** A planned round on the server, its fieldwork opened here. */
async function plannedRound(page: Page): Promise<string> {
  const investigation = `units-${randomUUID().slice(0, 8)}`
  const desk = new DemoDesk(investigation)
  openInvestigation(desk)
  describeBuilding(desk)
  adoptPlan(desk, { code: 'R1', at: '2026-03-03T16:10', scheduledOn: '2026-03-04', samples: 30 })
  registerInstruments(desk)
  const answer = await page.request.post(`/api/investigations/${investigation}/entries`, {
    data: { entries: desk.entries },
  })
  expect(await answer.json()).toMatchObject({ refused: [] })
  await pretendDay(page, '2026-03-04T08:00:00')
  await page.goto(`/i/${investigation}/fieldwork`)
  return investigation
}
