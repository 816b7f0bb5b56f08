import { expect, type Locator, type Page, test } from '@playwright/test'
import { makeRound, showStop } from './job/field-round.ts'
import { watchPage } from './job/page-watch.ts'
import { button, dialogOf, field } from './job/person.ts'
import { actOf, isFinished, settleStep, stepOf, wantedBy } from './job/stop.ts'

// A stop of fieldwork in the hand: 390 px wide, by thumb, and by a keyboard alone.
// The target size is the project's own; WCAG 2.2 asks for 24 px (2.5.8, AA) and 44 px (2.5.5, AAA): https://www.w3.org/TR/WCAG22/

const TARGET_PX = 44
const MOST_STEPS = 40

test.use({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true, actionTimeout: 10_000 })

test('a stop is done by thumb: every act is 44 px and in reach, nothing scrolls sideways', async ({ page }) => {
  const told = watchPage(page)
  const visit = await openStop(page)
  await measure(page, visit)
  await button(visit, 'Start this stop').tap()
  await sayWhoWrites(page, visit)
  for (let step = 0; step < MOST_STEPS && !(await isFinished(visit)); step += 1) {
    await measure(page, visit)
    const wanted = await wantedBy(visit)
    await wanted?.field.fill(wanted.text)
    await settleStep(page, { visit, press: (act) => tapAnew(visit, act) })
  }
  expect(await isFinished(visit)).toBe(true)
  await measure(page, visit)
  expect(told()).toEqual([])
})

test('the same stop is done by the keyboard alone, without the focus being lost', async ({ page }) => {
  const told = watchPage(page)
  const visit = await openStop(page)
  await tabTo(page, button(visit, 'Start this stop'))
  await page.keyboard.press('Enter')
  await sayWhoWrites(page, visit)
  for (let step = 0; step < MOST_STEPS && !(await isFinished(visit)); step += 1) {
    const wanted = await wantedBy(visit)
    if (wanted !== undefined) {
      await tabTo(page, wanted.field)
      await page.keyboard.type(wanted.text)
    }
    await settleStep(page, {
      visit,
      press: async (act) => {
        await tabTo(page, act)
        await page.keyboard.press('Enter')
      },
    })
    await expect(visit.locator(':focus'), `the focus after a step, now ${await stepOf(visit).innerText()}`).toHaveCount(
      1,
    )
  }
  expect(await isFinished(visit)).toBe(true)
  expect(told()).toEqual([])
})

test('a second tap of a nervous thumb settles nothing of the step that has come up under it', async ({ page }) => {
  const visit = await openStop(page)
  await button(visit, 'Start this stop').tap()
  await sayWhoWrites(page, visit)
  const [first, settled] = [await stepOf(visit).innerText(), visit.getByRole('img', { name: /steps settled$/ })]
  const box = await actOf(visit).boundingBox()
  const at = { x: (box?.x ?? 0) + (box?.width ?? 0) / 2, y: (box?.y ?? 0) + (box?.height ?? 0) / 2 }
  await page.mouse.click(at.x, at.y)
  await expect(stepOf(visit)).not.toHaveText(first)
  await page.mouse.down({ clickCount: 2 })
  await page.mouse.up({ clickCount: 2 })
  await expect(settled).toHaveAccessibleName(/^1 of /)
  await button(visit, 'More').click()
  await expect(settled).toHaveAccessibleName(/^1 of /)
})

/** Two taps of one place within half a second count as one double tap; a tap on the title between them, and they are two. */
async function tapAnew(visit: Locator, act: Locator): Promise<void> {
  await stepOf(visit).tap()
  await act.tap()
}

/** A planned round on the server, opened here at a basin tap. */
const openStop = (page: Page): Promise<Locator> => showStop(page, makeRound('101 basin tap'))

/** The first entry of this device asks whose it is, and is written then. */
async function sayWhoWrites(page: Page, visit: Locator): Promise<void> {
  const asked = dialogOf(page, 'Who is writing?')
  await expect(field(asked, 'Your name')).toBeFocused()
  await page.keyboard.type('S. Sampler')
  await page.keyboard.press('Enter')
  await expect(visit.getByRole('img', { name: /steps settled$/ })).toBeVisible()
}

/** Every act of the foot is a full target inside the window, every field is tall enough, and the page is as wide as the window. */
async function measure(page: Page, visit: Locator): Promise<void> {
  const title = await stepOf(visit).innerText()
  const window = page.viewportSize()
  for (const act of await visit.locator('.field-foot').getByRole('button').all()) {
    const box = await act.boundingBox()
    expect(box?.height ?? 0, `${title}: ${await act.innerText()}`).toBeGreaterThanOrEqual(TARGET_PX)
    expect(box?.width ?? 0, `${title}: ${await act.innerText()}`).toBeGreaterThanOrEqual(TARGET_PX)
  }
  const main = await actOf(visit).boundingBox()
  expect((main?.y ?? 0) + (main?.height ?? 0), `${title}: the act is in reach`).toBeLessThanOrEqual(window?.height ?? 0)
  for (const input of await visit.locator('input[type=text], select, textarea').all())
    expect((await input.boundingBox())?.height ?? 0, `${title}: a field`).toBeGreaterThanOrEqual(TARGET_PX)
  const excessPx = await page.evaluate(
    () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
  )
  expect(excessPx, `${title}: wider than the window by px`).toBeLessThanOrEqual(0)
}

const MOST_TABS = 30

/** Tab after Tab until the focus is there: what can't be reached from where the focus was is a failure. */
async function tabTo(page: Page, target: Locator): Promise<void> {
  for (let tab = 0; tab < MOST_TABS; tab += 1) {
    if (await target.evaluate((element) => element === document.activeElement)) return
    await page.keyboard.press('Tab')
  }
  throw new Error(`Not reached within ${MOST_TABS} tabs: ${await target.innerText()}`)
}
