import { expect, type Locator, type Page, test } from '@playwright/test'
import { OKORO } from '../../demo/desk.ts'
import { makeRound, openAtStop } from './job/field-round.ts'
import { button, dialogOf, field } from './job/person.ts'
import { TINY_PNG } from './job/tiny-png.ts'

// Two people on one round, and what is wanted beside the steps. 390 px wide.

test.use({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true, actionTimeout: 15_000 })

test('who is where is told, and a stop another phone is at is not the next', async ({ page }) => {
  const round = makeRound('101 basin tap')
  const stops = round.state.plan.rounds.get('R1')?.body.plan.stops ?? []
  const [first, second] = [stops[0], stops.find(({ title }) => title === '101 ice machine')]
  if (first === undefined || second === undefined) throw new Error('The round has other stops')
  for (const stop of [first, second])
    round.desk.write('stop.started', { round: 'R1', stop: stop.id }, { at: '2026-03-04T07:50', by: OKORO })
  const visit = await openAtStop(page, round)
  await button(visit, /^stop \d+ of/).tap()
  const main = page.getByRole('main')
  await expect(button(main, `Go on at: ${round.stop.title}`)).toBeVisible()
  const row = main.getByRole('listitem').filter({ hasText: second.title })
  await expect(row.first()).toContainText('T. Okoro is there')
  await main.getByText(/^2 people at 3 stops$/).tap()
  await expect(button(main, /^Supply.*07:50/)).toHaveCount(2)
  await row.first().getByRole('button').tap()
  await expect(page.locator('section.field-visit')).toContainText('T. Okoro is at this stop on another device.')
})

test('a photo is kept at once and goes into the record with its words, also over a reload', async ({ page }) => {
  const visit = await openAtStop(page, makeRound('101 basin tap'))
  await button(visit, 'More').tap()
  const more = (): Locator => dialogOf(page, '101 basin tap')
  await more().locator('input[type=file]').setInputFiles({ name: 'tap.png', mimeType: 'image/png', buffer: TINY_PNG })
  await field(more(), 'What it shows (no people)').fill('scale on the aera')
  await page.reload()
  await button(visit, 'More').tap()
  await expect(field(more(), 'What it shows (no people)')).toHaveValue('scale on the aera')
  await field(more(), 'What it shows (no people)').press('End')
  await page.keyboard.type('tor')
  await button(more(), 'Keep the photo').tap()
  await expect(more().getByRole('img', { name: 'scale on the aerator' })).toBeVisible()
})

test('every target of the dialogs of a stop is 44 px', async ({ page }) => {
  const visit = await openAtStop(page, makeRound('101 basin tap'))
  await button(visit, 'More').tap()
  await measure(page)
  await button(dialogOf(page, '101 basin tap'), 'Close').tap()
  await button(visit, 'Can’t do this').tap()
  await measure(page)
  await button(dialogOf(page, /why not/), 'Back to the step').tap()
  await button(visit, /^stop \d+ of/).tap()
  for (const name of ['Add a stop', 'Register an instrument']) {
    await button(page.getByRole('main'), name).tap()
    await measure(page)
    await button(dialogOf(page, name), 'Leave it').tap()
  }
})

const TARGET_PX = 44

/** Buttons, fields and lines to tick of the dialog that is open; a box or a dot counts with its line. */
async function measure(page: Page): Promise<void> {
  const dialog = page.getByRole('dialog')
  await expect(dialog).toBeVisible()
  const targets = dialog.locator(
    'button:visible, input[type=text]:visible, select:visible, textarea:visible, label.radio:visible, label.check-line:visible, summary:visible',
  )
  for (const target of await targets.all()) {
    const box = await target.boundingBox()
    expect(
      box?.height ?? 0,
      await target.evaluate((element) => element.outerHTML.slice(0, 160)),
    ).toBeGreaterThanOrEqual(TARGET_PX)
  }
}
