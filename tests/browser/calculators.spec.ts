import { randomUUID } from 'node:crypto'
import { expect, type Page, test } from '@playwright/test'
import { calculations } from '@rillmark/science/catalogue/catalogue.ts'
import type { Calculation } from '@rillmark/science/catalogue/descriptor.ts'
import { DemoDesk } from '../../demo/desk.ts'
import { openInvestigation } from '../../demo/scenario/brief.ts'
import { describeBuilding } from '../../demo/scenario/building.ts'
import { adoptPlan } from '../../demo/scenario/plan.ts'
import { entriesOf } from './job/entries.ts'
import { watchPage } from './job/page-watch.ts'
import { button, dialogOf, field } from './job/person.ts'

// Every calculator as a person uses it: the example filled in, the result and its working read, copied, and put into the record, from where
// the figures can be taken again. And every step with the calculations it needs at hand.

const RESULT_MS = 30_000
const EXCESS_PX = 'page wider than its window by px'

test.describe.configure({ timeout: 300_000 })

for (const [name, width] of [
  ['desk', 1440],
  ['phone', 390],
] as const)
  test(`every calculator works, copies and records its example, ${name}`, async ({ page, context }) => {
    await context.grantPermissions(['clipboard-read', 'clipboard-write'])
    await page.setViewportSize({ width, height: 900 })
    const told = watchPage(page)
    const investigation = await opened(page)
    for (const calculation of calculations)
      await test.step(calculation.id, async () => {
        await page.goto(`/i/${investigation}/calculators/${calculation.id}`)
        await worksItsExample(page, calculation)
        expect.soft(await excessPx(page), `${calculation.id}, ${EXCESS_PX}`).toBeLessThanOrEqual(0)
      })
    const recorded = await entriesOf(page, 'calculation.recorded')
    expect(recorded.map(({ body: { id, version } }) => ({ id, version }))).toEqual(
      calculations.map(({ id, version }) => ({ id, version })),
    )
    for (const { body } of recorded) {
      const calculation = calculations.find(({ id }) => id === body.id)
      expect(body.input).toEqual(JSON.parse(JSON.stringify(calculation?.input.parse(calculation.example.input))))
      expect(body.working).toContain(`(${body.id}, version ${body.version})`)
    }
    expect(told()).toEqual([])
  })

/** The example filled in by its button, copied, recorded, and taken from the record again. */
async function worksItsExample(page: Page, { id, title, cautions, sources }: Calculation): Promise<void> {
  const main = page.getByRole('main')
  await expect(main.getByRole('heading', { level: 1 })).toHaveText(title)
  await button(main, 'Fill in the example').press('Enter')
  const result = main.getByRole('region', { name: 'Result', exact: true })
  await expect(button(result, 'Record this')).toBeVisible({ timeout: RESULT_MS })
  await expect(result.locator('dd').first()).toHaveText(/\S/)
  for (const caution of cautions) await expect(result).toContainText(caution)
  for (const { citation } of sources)
    await expect(main.getByRole('region', { name: 'Sources' })).toContainText(citation)
  await button(result, 'Copy as text').press('Enter')
  const copied = await page.evaluate(async () => navigator.clipboard.readText())
  expect(copied.split('\n')[0]).toContain(id)
  for (const words of await result.locator('dd').allInnerTexts()) expect(copied).toContain(words)
  await button(result, 'Record this').press('Enter')
  await sayWhoWrites(page)
  const kept = main.getByRole('region', { name: 'Recorded in this investigation' })
  await expect(kept).toBeVisible()
  await button(main, 'Empty').press('Enter')
  await expect(button(result, 'Record this')).toBeHidden()
  await button(kept, 'Take these figures').press('Enter')
  await expect(button(result, 'Record this')).toBeVisible({ timeout: RESULT_MS })
}

const AT_HAND = {
  plan: ['detection-probability', 'outlets-to-sample'],
  fieldwork: ['neutralizer', 'clearing-time', 'hypochlorous-fraction'],
  results: ['plate-count', 'most-probable-number', 'censored-summary'],
  control: ['shock-dose', 'dechlorination', 'heat-inactivation', 'disinfectant-contact', 'loop-temperature'],
  'follow-up': ['follow-up-dates', 'upper-bound-after-negatives'],
} as const

test('each step has its calculations at hand, and leads to their working with the figures filled in', async ({
  page,
}) => {
  const told = watchPage(page)
  const investigation = await opened(page)
  for (const [step, ids] of Object.entries(AT_HAND)) {
    await page.goto(`/i/${investigation}/${step}`)
    const part = page.getByRole('region', { name: 'Work it out here' })
    await expect(part).toBeVisible()
    for (const summary of await part.locator('summary').all()) await summary.click()
    for (const id of ids) {
      const { title } = calculations.find((each) => each.id === id) ?? { title: id }
      await expect(part.getByRole('link', { name: `Working and sources: ${title}` })).toHaveAttribute(
        'href',
        `/i/${investigation}/calculators/${id}`,
      )
    }
  }
  await page.goto(`/i/${investigation}/plan`)
  const part = page.getByRole('region', { name: 'Work it out here' })
  await expect(part).toBeVisible()
  await part.locator('summary').first().click()
  const shown = await part.locator('dd').first().innerText()
  await part.getByRole('link', { name: /^Working and sources/ }).click()
  const result = page.getByRole('main').getByRole('region', { name: 'Result', exact: true })
  await expect(result.locator('dd').first()).toHaveText(shown)
  expect(told()).toEqual([])
})

test('lines and tables are typed as people write them, and what is wrong is named by its place', async ({ page }) => {
  const told = watchPage(page)
  await page.setViewportSize({ width: 390, height: 900 })
  await page.goto('/calculators/censored-summary')
  const result = page.getByRole('main').getByRole('region', { name: 'Result', exact: true })
  const readings = page.getByRole('textbox', { name: /^Readings/ })
  await readings.fill('< 10\n20\n\n0\n1 200\n30-40\n>300')
  await expect(page.getByRole('alert')).toContainText('Line 4. Expected')
  await readings.fill('< 10\n20\nabout 5')
  await expect(page.getByRole('alert')).toContainText('Line 3: “about 5” is no reading')
  await readings.fill('< 10\n20\n15\n1 200\n30-40\n>300')
  await expect(page.getByText('6 read, 3 of them below, above or between limits.')).toBeVisible()
  await expect(button(result, 'Copy as text')).toBeVisible()
  await page.goto('/calculators/most-probable-number')
  await page.getByRole('radio', { name: 'as a table' }).check()
  const wells = page.getByRole('textbox', { name: /^Wells or tubes/ })
  await wells.fill('volume\tinoculated\tpositive\n0,1\t10\t5\n0,01\t10\tthree')
  await expect(page.getByRole('alert')).toContainText('Row 2, Positive: “three” is not a number.')
  await expect(page.getByRole('radio', { name: 'one by one' })).toBeDisabled()
  await wells.fill('volume\tinoculated\tpositive\n0,1\t10\t5\n0,01\t10\t3')
  await expect(page.getByText('2 rows, 3 columns: Volume (mL), Inoculated, Positive.')).toBeVisible()
  await expect(button(result, 'Copy as text')).toBeVisible()
  await page.getByRole('radio', { name: 'one by one' }).check()
  await expect(page.getByRole('group', { name: 'Well 2' })).toBeVisible()
  await expect(page.getByRole('textbox', { name: /How many of them were positive/ })).toHaveCount(2)
  await page.goto('/calculators/matched-sets')
  await button(page.getByRole('main'), 'Fill in the example').press('Enter')
  const sets = page.getByRole('textbox', { name: /^One row for each case/ })
  await sets.fill('Case exposed;Controls;Controls exposed\nyes;2;0\nperhaps;2;1')
  await expect(page.getByRole('alert')).toContainText('Row 2, Case exposed: yes or no is needed, not “perhaps”.')
  await expect(button(result, 'Copy as text')).toBeHidden()
  expect(told()).toEqual([])
})

async function opened(page: Page): Promise<string> {
  const investigation = `sums-${randomUUID().slice(0, 8)}`
  const desk = new DemoDesk(investigation)
  openInvestigation(desk)
  describeBuilding(desk)
  adoptPlan(desk, { code: 'R1', at: '2026-03-03T16:10', scheduledOn: '2026-03-04', samples: 30 })
  const answer = await page.request.post(`/api/investigations/${investigation}/entries`, {
    data: { entries: desk.entries },
  })
  expect(await answer.json()).toMatchObject({ refused: [] })
  return investigation
}

/** The first entry of this device asks whose it is. */
async function sayWhoWrites(page: Page): Promise<void> {
  const asked = dialogOf(page, 'Who is writing?')
  const kept = page.getByRole('region', { name: 'Recorded in this investigation' })
  await expect(asked.or(kept).first()).toBeVisible()
  if (!(await asked.isVisible())) return
  await field(asked, 'Your name').fill('S. Sampler')
  await page.keyboard.press('Enter')
}

const excessPx = async (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)
