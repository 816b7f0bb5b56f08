import { type Browser, chromium, expect, type Page, test } from '@playwright/test'
import { chromiumLaunchOptions } from '../../scripts/phases/chromium.ts'
import { makeRound, openAtStop } from './job/field-round.ts'
import { filmOfLabel } from './job/label-film.ts'
import { button, dialogOf, field } from './job/person.ts'
import { settleStop, stepOf } from './job/stop.ts'

// What a phone does for a stop: its camera, its clock, its screen, its memory. 390 px wide.

const PHONE = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true } as const

test('a printed label is read by the camera, from the sheet to the record', async () => {
  const round = makeRound('101 basin tap')
  const label = round.labelOf('first-flush-swab')
  await withCamera(filmOfLabel(round.state, label), async (page) => {
    const asked: string[] = []
    page.on('request', (request) => asked.push(new URL(request.url()).origin))
    const visit = await openAtStop(page, round)
    await settleStop(page, { visit, until: 'Label the tube' })
    await button(visit, 'Scan the label').tap()
    await expect(dialogOf(page, 'Scan the label')).toBeHidden({ timeout: 20_000 })
    await expect(button(visit, `Keep ${label}`)).toBeEnabled()
    await button(visit, `Keep ${label}`).tap()
    await expect(stepOf(visit)).not.toHaveText('Label the tube')
    expect([...new Set(asked)], 'nothing was asked of another server').toEqual([new URL(page.url()).origin])
  })
})

test('a label of another bottle is read and refused, and the camera looks on', async () => {
  const round = makeRound('101 basin tap')
  await withCamera(filmOfLabel(round.state, round.labelOf('bulk-hot')), async (page) => {
    const visit = await openAtStop(page, round)
    await settleStop(page, { visit, until: 'Label the tube' })
    await button(visit, 'Scan the label').tap()
    const dialog = dialogOf(page, 'Scan the label')
    await expect(dialog).toContainText('It is for the other container of this stop.', { timeout: 20_000 })
    await expect(dialog.getByLabel('Camera')).toBeVisible()
    await field(dialog, 'Or type it').fill(round.labelOf('first-flush-swab'))
    await button(dialog, 'Use it').tap()
    await expect(dialog).toBeHidden()
    await expect(button(visit, `Keep ${round.labelOf('first-flush-swab')}`)).toBeEnabled()
  })
})

test('a camera that is not allowed is told in plain words, and the label is typed', async () => {
  const round = makeRound('101 basin tap')
  await withBrowser([], async (page) => {
    const visit = await openAtStop(page, round)
    await settleStop(page, { visit, until: 'Label the tube' })
    await button(visit, 'Scan the label').tap()
    const dialog = dialogOf(page, 'Scan the label')
    await expect(dialog).toContainText(/The camera is not allowed|This device has no camera/)
    await field(dialog, 'Or type it').fill(round.labelOf('first-flush-swab'))
    await field(dialog, 'Or type it').press('Enter')
    await expect(button(visit, `Keep ${round.labelOf('first-flush-swab')}`)).toBeEnabled()
  })
})

const withCamera = (film: string, use: (page: Page) => Promise<void>): Promise<void> =>
  withBrowser(
    [
      '--use-fake-ui-for-media-stream',
      '--use-fake-device-for-media-stream',
      `--use-file-for-fake-video-capture=${film}`,
    ],
    use,
  )

/** A browser of its own, because what a camera shows is told when it starts. */
async function withBrowser(args: readonly string[], use: (page: Page) => Promise<void>): Promise<void> {
  const options = chromiumLaunchOptions()
  const browser: Browser = await chromium.launch({ ...options, args: [...options.args, ...args] })
  try {
    const baseURL = process.env['RILLMARK_URL'] ?? ''
    const context = await browser.newContext({ ...PHONE, baseURL, locale: 'en-GB', timezoneId: 'Europe/London' })
    context.setDefaultTimeout(10_000)
    await use(await context.newPage())
  } finally {
    await browser.close()
  }
}
