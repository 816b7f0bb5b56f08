import { expect, type Page, test } from '@playwright/test'
import { type OwnApp, startOwnApp } from './job/own-app.ts'
import { button, dialogOf, field } from './job/person.ts'

// A part of the app that comes in a file of its own, and can't be fetched.
const EXAMPLE = '/i/marram-house'
let app: OwnApp
test.beforeAll(async () => {
  app = await startOwnApp()
})
test.afterAll(() => app.remove())

const TYPED = 'half a sentence of importance'

for (const part of ['OfflineLines', 'StillKeeper'])
  test(`[OFF24] what is typed stays where what comes after the screen (${part}) can’t be fetched`, async ({ page }) => {
    let failed = false
    let letFail: () => void = () => undefined
    const typed = new Promise<void>((resolve) => (letFail = resolve))
    await page.route(`**/assets/${part}*.js`, async (route) => {
      await typed
      await route.abort('internetdisconnected')
      failed = true
    })
    await page.goto(`${app.url}${EXAMPLE}/brief`)
    const dialog = await openNote(page)
    letFail()
    await expect.poll(() => failed).toBe(true)
    // what would take the screen away comes within this time
    await page.waitForTimeout(1000)
    await expect(field(dialog, 'Text')).toHaveValue(TYPED)
    await expect(page.getByText('could not be shown')).toHaveCount(0)
  })

test('[OFF24] a dialog that can’t be fetched is said to be, the screen stays, and it is fetched when asked again', async ({
  page,
}) => {
  await page.goto(`${app.url}${EXAMPLE}/brief`)
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible({ timeout: 60_000 })
  let there = false
  await page.route('**/assets/FindDialog*.js', (route) =>
    there ? route.continue() : route.abort('internetdisconnected'),
  )
  await page.keyboard.press('Control+k')
  const missing = dialogOf(page, 'Not fetched yet')
  await expect(missing).toBeVisible()
  there = true
  await button(missing, 'Try again').click()
  await expect(missing).toBeHidden()
  await expect(page.getByRole('dialog')).toBeVisible()
  await page.keyboard.press('Escape')
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible()
})

test('[OFF24] a part of a screen that can’t be fetched is said to be, and the rest of the screen stays', async ({
  page,
}) => {
  let there = false
  await page.route('**/assets/PredictedFace*.js', (route) =>
    there ? route.continue() : route.abort('internetdisconnected'),
  )
  await page.goto(`${app.url}${EXAMPLE}/building`)
  await page.getByRole('tab', { name: 'Predicted' }).click()
  await expect(page.getByText('This part is not on this device yet')).toBeVisible({ timeout: 60_000 })
  await expect(page.getByRole('tab', { name: 'Predicted' })).toBeVisible()
  there = true
  await button(page, 'Try again').click()
  await expect(page.getByText('This part is not on this device yet')).toHaveCount(0)
  await expect(page.getByRole('button', { name: /101 basin tap.* predicted temperature/ })).toBeVisible({
    timeout: 60_000,
  })
})

async function openNote(page: Page) {
  await button(page, 'Write a note or question').click()
  const dialog = dialogOf(page, 'Write a note or question')
  await field(dialog, 'Text').fill(TYPED)
  return dialog
}
