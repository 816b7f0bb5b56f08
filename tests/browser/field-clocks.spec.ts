import { expect, type Locator, type Page, test } from '@playwright/test'
import { makeRound, openAtStop } from './job/field-round.ts'
import { button, choice, dialogOf, field } from './job/person.ts'
import { listenTo } from './job/phone-senses.ts'
import { press, settleStop, stepOf } from './job/stop.ts'

// The clocks of a stop: right after a reload and a night, heard and felt at their end, with the screen kept on. 390 px wide.

test.use({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true, actionTimeout: 10_000 })

const OVER = '200,100,200,100,300'
const DUE = '60'

test('a run time goes on through a reload, ends with one signal, and keeps the screen on meanwhile', async ({
  page,
}) => {
  const senses = await listenTo(page)
  const visit = await openAtStop(page, makeRound('Supply'))
  await settleStop(page, { visit, until: 'Run to the main' })
  expect(await senses.keptOn()).toBe(false)
  await button(visit, 'Start the clock').tap()
  await expect.poll(senses.keptOn).toBe(true)
  await page.clock.fastForward('01:10')
  await page.reload()
  await expect(visit.getByRole('timer')).toContainText(/^1 min 1\d s/)
  await stepOf(visit).tap()
  expect(await senses.vibrations()).toEqual([])
  await page.clock.fastForward('00:55')
  await expect(visit.getByRole('timer')).toContainText('long enough')
  await expect.poll(senses.vibrations).toEqual([OVER])
  await expect.poll(senses.tones).toBe(3)
  await page.reload()
  await expect(visit.getByRole('timer')).toContainText('long enough')
  await page.clock.fastForward('08:00:00')
  await expect(visit.getByRole('timer')).toContainText(/^48\d min/)
  expect(await senses.vibrations(), 'a signal is not given twice').toEqual([])
  await press(visit, visit.getByRole('button', { name: /^Ran 48\d min/ }))
  await expect.poll(senses.keptOn).toBe(false)
})

test('sound and vibration are switched off, and stay off', async ({ page }) => {
  const senses = await listenTo(page)
  const visit = await openAtStop(page, makeRound('Supply'))
  await button(visit, 'More').tap()
  const more = dialogOf(page, 'Supply')
  await more.getByLabel('Vibrate').uncheck()
  await more.getByLabel(/^Sound at the end/).uncheck()
  await button(more, 'Close').tap()
  await page.reload()
  await settleStop(page, { visit, until: 'Run to the main' })
  await button(visit, 'Start the clock').tap()
  await page.clock.fastForward('02:05')
  await expect(visit.getByRole('timer')).toContainText('long enough')
  expect([await senses.vibrations(), await senses.tones()]).toEqual([[], 0])
})

test('a curve is asked for every five seconds; a missed and a late reading do no harm; steady is found by itself', async ({
  page,
}) => {
  const senses = await listenTo(page)
  const round = makeRound('101 basin tap')
  const visit = await openAtStop(page, round)
  await settleStop(page, { visit, until: 'Run until it is as hot as it gets' })
  await choice(visit, { of: 'Ask for a reading', name: 'every 5 s' }).check()
  // from here on the clock stands, however long this machine takes for a step, and goes on only where it is told to
  await page.clock.pauseAt(await page.evaluate(() => Date.now() + 1000))
  await button(visit, 'Open the tap, start the clock').tap()
  await read(visit, '31.2')
  await expect(visit.getByRole('timer')).toContainText('next in 5 s')
  await page.clock.fastForward('00:05')
  await expect(visit.getByRole('timer')).toContainText('read it now')
  await expect.poll(senses.vibrations).toEqual([DUE])
  await page.clock.fastForward('00:11')
  await read(visit, '50.4')
  for (const shown of ['52.3', '52.4', '52.3', '52.5', '52.4', '52.4', '52.4', '52.5']) {
    if ((await button(visit, /^Keep 5/).count()) > 0 && (await field(visit, 'Probe shows').inputValue()) === '') break
    await page.clock.fastForward('00:05')
    await read(visit, shown)
  }
  await expect(visit.getByText(/^steady for/)).toBeVisible()
  await expect(visit.getByText('50 °C was reached by 16 s.')).toBeVisible()
  expect((await senses.vibrations()).filter((pattern) => pattern === OVER)).toHaveLength(1)
  await page.clock.resume()
  await press(visit, button(visit, /^Keep 52\.[345] °C$/))
  const curve = await curveInRecord(page, round.investigation)
  expect(curve.points.length).toBeGreaterThanOrEqual(8)
  expect(curve.steady.toSeconds - curve.steady.fromSeconds).toBeGreaterThanOrEqual(30)
  const seconds = curve.points.map((point) => point.seconds)
  expect(seconds[1], 'the missed beat left a gap').toBe(16)
})

async function read(visit: Locator, shown: string): Promise<void> {
  await field(visit, 'Probe shows').fill(shown)
  // one of the small steps beside it may say the same
  await button(visit.locator('.field-act'), `Add ${shown} °C`).click()
  await expect(field(visit, 'Probe shows')).toHaveValue('')
}

interface Curve {
  readonly points: readonly { readonly seconds: number }[]
  readonly steady: { readonly fromSeconds: number; readonly toSeconds: number }
}

/** The curve of the last reading, as the server has it. */
async function curveInRecord(page: Page, investigation: string): Promise<Curve> {
  let found: Curve | undefined
  await expect
    .poll(async () => {
      const answer = await page.request.get(`/api/investigations/${investigation}/entries?after=0&limit=1000`)
      const { links } = (await answer.json()) as { links: { entry: { body: { curve?: Curve } } }[] }
      found = links.findLast(({ entry }) => entry.body.curve !== undefined)?.entry.body.curve
      return found !== undefined
    })
    .toBe(true)
  if (found === undefined) throw new Error('The record has no curve')
  return found
}
