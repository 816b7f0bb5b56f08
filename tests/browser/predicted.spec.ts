import { randomUUID } from 'node:crypto'
import { expect, type Locator, type Page, test } from '@playwright/test'
import { DemoDesk } from '../../demo/desk.ts'
import { openInvestigation } from '../../demo/scenario/brief.ts'
import { describeBuilding } from '../../demo/scenario/building.ts'
import { entriesOf } from './job/entries.ts'
import { inspect } from './job/inspect.ts'
import { watchPage } from './job/page-watch.ts'
import { button, choice, dialogOf, field } from './job/person.ts'

// The predicted water as a person uses it: worked out in the browser, looked at by hour, ranked, opened place by place, with something
// changed, and put into the record. 50 °C = 122 °F and 20 °C = 68 °F by the definition of the scales.

const WORKED_OUT_MS = 90_000
/** A tap of Marram House that nobody uses. */
const UNUSED = '208 basin tap'

test.describe.configure({ timeout: 300_000 })

for (const { name, colorScheme, ...viewport } of [
  { name: 'desk', colorScheme: 'light', width: 1440, height: 900 },
  { name: 'phone', colorScheme: 'dark', width: 390, height: 844 },
] as const)
  test.describe(name, () => {
    test.use({ viewport, colorScheme, hasTouch: name === 'phone', contextOptions: { reducedMotion: 'reduce' } })

    test('the water is worked out, looked at by hour, ranked, and explained place by place', async ({ page }) => {
      const told = watchPage(page)
      const main = await predicted(page)
      await inspect(page, { name: `${name}: ranked` })
      await lookAtAnHour(main)
      await rankings(main)
      await ranked(main).getByRole('button', { name: UNUSED }).first().click()
      await expect(main.getByRole('heading', { level: 1, name: UNUSED })).toBeVisible()
      await expect(main.getByRole('region', { name: 'Why it is so' })).toContainText('No water moves here')
      await button(main, 'Back to the ranking').click()
      await ranked(main).getByRole('row').nth(2).getByRole('button').click()
      const day = main.getByRole('region', { name: 'Over the day' })
      await expect(day.getByRole('img', { name: /^Temperature over the day: hot from \d/ })).toBeVisible()
      await day.getByText('The day hour by hour, in figures').click()
      await expect(day.getByRole('row')).toHaveCount(25)
      await inspect(page, { name: `${name}: one place` })
      await button(main, 'What is described of it').click()
      await expect(page.getByRole('tab', { name: 'As described' })).toHaveAttribute('aria-selected', 'true')
      await page.getByRole('tab', { name: 'Predicted' }).click()
      await expect(main.getByRole('slider')).toBeVisible()
      expect(told()).toEqual([])
    })

    test('a change is tried, compared and left out of the description; the prediction goes into the record', async ({
      page,
    }) => {
      const told = watchPage(page)
      const main = await predicted(page)
      const described = await systemEntries(page)
      const tried = main.getByRole('region', { name: 'What if something were changed?' })
      await tried.getByRole('combobox', { name: 'Change', exact: true }).selectOption('An outlet used otherwise')
      await field(tried, 'Outlet').fill(UNUSED)
      await page.keyboard.press('Tab')
      await button(tried, 'Add to the changes').click()
      await expect(tried.getByRole('list', { name: 'Changes to try' })).toContainText(
        `${UNUSED}: flushed daily at 07:00`,
      )
      await button(tried, 'Work it out with these').click()
      const still = tried.getByRole('row').filter({ hasText: 'water that nothing moves all day' })
      await expect(still).toBeVisible({ timeout: WORKED_OUT_MS })
      const [before, after] = (await still.getByRole('cell').allInnerTexts()).map((text) =>
        Number(/\d+/.exec(text)?.[0]),
      )
      // the tap that is flushed now moves, and no other outlet has changed its use
      expect(after).toBe((before ?? 0) - 1)
      await inspect(page, { name: `${name}: with something changed` })
      await choice(main, { of: 'The building', name: 'With the changes' }).check()
      await expect(main.locator('.diagram-says')).toContainText('with the changes')
      await tried
        .getByRole('button', { name: new RegExp(`^${UNUSED}`) })
        .first()
        .click()
      await expect(main.getByRole('region', { name: 'With the changes tried' })).toBeVisible()
      await button(main, 'Back to the ranking').click()
      await recordIt(page, main)
      expect(await systemEntries(page)).toEqual(described)
      expect(told()).toEqual([])
    })
  })

test('figures are shown in the units of the reader', async ({ page }) => {
  const main = await predicted(page)
  await button(page, 'Preferences').click()
  const dialog = dialogOf(page, 'Preferences')
  await choice(dialog, { of: 'Units', name: 'US customary' }).check()
  await button(dialog, 'Done').click()
  await expect(main.getByRole('heading', { level: 1 })).toContainText('never reaches 122 °F')
  await expect(ranked(main)).toContainText('Hottest, °F')
  await expect(main.getByRole('list', { name: 'What the marks mean' })).toContainText('below 68 °F')
  await main.getByRole('combobox', { name: 'Ranked by' }).selectOption('Most hours at 77 to below 113 °F')
})

test('a building with a heater without a set point is told what is missing, not figures', async ({ page }) => {
  const main = await opened(page, (desk) => {
    const heater = desk.state.building.working.component('heater-1')
    if (heater === undefined) throw new Error('the building has no heater-1')
    const { setpointC: _gone, ...component } = heater
    desk.write('building.edited', { changes: [{ change: 'put-component', component }] }, { at: '2026-03-03T15:00' })
  })
  await button(main, 'Work out the water').click()
  await expect(main.getByRole('heading', { level: 1 })).toHaveText('Too little is described to say')
  await expect(main.getByRole('slider')).toHaveCount(0)
  await main
    .getByRole('button', { name: /^Go to Heater 1/ })
    .first()
    .click()
  await expect(main.getByRole('heading', { level: 1, name: 'Heater 1' })).toBeVisible()
})

const ranked = (main: Locator): Locator => main.getByRole('region', { name: 'Where to look first' }).getByRole('table')

/** A described building on the server, its predicted face open here. */
async function opened(page: Page, change?: (desk: DemoDesk) => void): Promise<Locator> {
  const investigation = `water-${randomUUID().slice(0, 8)}`
  const desk = new DemoDesk(investigation)
  openInvestigation(desk)
  describeBuilding(desk)
  change?.(desk)
  const answer = await page.request.post(`/api/investigations/${investigation}/entries`, {
    data: { entries: desk.entries },
  })
  expect(await answer.json()).toMatchObject({ refused: [] })
  await page.goto(`/i/${investigation}/building`)
  await page.getByRole('tab', { name: 'Predicted' }).click()
  return page.getByRole('main')
}

async function predicted(page: Page): Promise<Locator> {
  const main = await opened(page)
  await button(main, 'Work out the water').click()
  await expect(ranked(main)).toBeVisible({ timeout: WORKED_OUT_MS })
  return main
}

/** By keyboard and by choice; the drawing says which hour it shows. */
async function lookAtAnHour(main: Locator): Promise<void> {
  const slider = main.getByRole('slider', { name: 'Time of day' })
  const says = main.locator('.diagram-says')
  await expect(says).toContainText('Predicted temperature, hot side, highest of the day')
  await slider.fill('29')
  await expect(slider).toHaveAttribute('aria-valuetext', '07:15')
  await expect(says).toContainText('hot side, 07:15')
  await slider.press('ArrowRight')
  await expect(says).toContainText('hot side, 07:30')
  await button(main, 'A quarter of an hour earlier').click()
  await expect(says).toContainText('hot side, 07:15')
  await main.getByRole('combobox', { name: 'Of the day' }).selectOption('The lowest')
  await expect(says).toContainText('lowest of the day')
  await main.getByRole('combobox', { name: 'On the drawing' }).selectOption('Age, h')
  await choice(main, { of: 'Water of the', name: 'Cold side' }).check()
  await expect(says).toContainText('Predicted age, cold side')
}

/** Each ranking has rows, the unused tap first where nothing moves. */
async function rankings(main: Locator): Promise<void> {
  const by = main.getByRole('combobox', { name: 'Ranked by' })
  for (const words of await by.locator('option').allInnerTexts()) {
    await by.selectOption(words)
    await expect(ranked(main).locator('caption')).toContainText(words)
    expect(await ranked(main).getByRole('row').count()).toBeGreaterThan(1)
  }
  await by.selectOption('Coolest hot')
  await expect(ranked(main).getByRole('row').nth(1)).toContainText(UNUSED)
}

const systemEntries = async (page: Page): Promise<readonly string[]> =>
  [...(await entriesOf(page, 'building.described')), ...(await entriesOf(page, 'building.edited'))].map(({ id }) => id)

/** The entry names the building as it is and keeps the figures. */
async function recordIt(page: Page, main: Locator): Promise<void> {
  const keep = main.getByRole('region', { name: 'Keep it' })
  await field(keep, 'Note').fill('before the first round')
  await button(keep, 'Put this prediction into the record').click()
  const asked = dialogOf(page, 'Who is writing?')
  await field(asked, 'Your name').fill('S. Sampler')
  await page.keyboard.press('Enter')
  await expect(keep).toContainText('is in the record')
  const [entry] = await entriesOf(page, 'prediction.recorded')
  expect(entry?.body).toMatchObject({ note: 'before the first round', repeats: true })
  expect(entry?.body.places.length).toBeGreaterThan(100)
}
