import { expect as soon, type Page, test } from '@playwright/test'
import { verdictWords } from '@rillmark/exchange/verify/verdict-words.ts'
import { verifyFiles } from '@rillmark/exchange/verify/verify-files.ts'
import { webCryptoCheck } from '@rillmark/exchange/verify/web-crypto-check.ts'
import { device, join, newInvitation, note, shown } from './job/closed.ts'
import { inspect } from './job/inspect.ts'
import { type OwnApp, startOwnApp } from './job/own-app.ts'
import { button, dialogOf, field } from './job/person.ts'

// A server as for a network: HTTPS with a certificate of its own, and nobody comes in who was not invited. A desk and a phone, each a browser.
test.setTimeout(420_000)
const expect = soon.configure({ timeout: 60_000 })

const RECEIPT = '/api/investigations/marram-house/documents/receipt.json?sample=Box+1'

let app: OwnApp
test.beforeAll(async () => {
  app = await startOwnApp({ closed: true })
})
test.afterAll(() => app.remove())

test('[ACC23] [OFF11] [OFF14] [OFF20] [SYN30] [SYN32] a lead joins, invites a phone, sees it come in, and revokes it; what the phone writes after waits on it until it joins anew', async ({
  browser,
}) => {
  const desk = await device(browser, { width: 1440, height: 900 })
  await desk.goto(`${app.url}/devices`)
  await expect(desk.getByText('This device is not in')).toBeVisible()
  await join(desk, { invitation: app.invitation ?? '', name: 'Desk of R. Vale' })
  await expect(desk.getByText('Desk of R. Vale is in')).toBeVisible()
  expect(new URL(desk.url()).hash).toBe('')

  await desk.goto(`${app.url}/devices`)
  await comparesKey(desk)
  await button(desk, 'Invite a device').click()
  await button(desk, 'Make the invitation').click()
  await expect(desk.getByRole('img', { name: /QR code/ })).toBeVisible()
  await expect(desk.getByRole('timer')).toHaveText(/^1[45]:\d\d$/)
  await inspect(desk, { name: 'invitation', within: '[role="dialog"]' })
  const invitation = await desk.locator('.invitation-link').innerText()

  const brief = `${app.url}/i/marram-house/brief`
  const phone = await device(browser, { width: 390, height: 844 })
  await join(phone, { invitation, name: 'Phone of S. Sampler' })
  await expect(phone.getByText('As sampler, it reads everything and writes entries and photos.')).toBeVisible()
  await expect(desk.getByRole('heading', { name: 'Phone of S. Sampler is in' })).toBeVisible()
  await button(dialogOf(desk, 'Phone of S. Sampler is in'), 'Close').click()
  await expect(desk.getByText('2 devices are in')).toBeVisible()

  await note(phone, { brief, text: 'Taken in the riser cupboard.' })
  await expect(shown(phone, /^All \d+ entries are on the server/)).toBeVisible()
  await phone.goto(`${app.url}/devices`)
  await expect(phone.getByText('2 devices are in')).toBeVisible()
  await expect(button(phone, 'Invite a device')).toHaveCount(0)
  await inspect(phone, { name: 'devices, phone' })

  const late = await device(browser, { width: 390, height: 844 })
  await join(late, { invitation, name: 'A second phone' })
  await expect(late.getByText('This invitation does not count')).toBeVisible()

  await button(desk, 'Revoke Phone of S. Sampler').click()
  const dialog = dialogOf(desk, 'Revoke Phone of S. Sampler')
  await button(dialog, 'Revoke it').click()
  await expect(dialog.getByRole('alert')).toContainText('one sentence')
  await field(dialog, 'Reason').fill('Lost at the station')
  await inspect(desk, { name: 'revocation', within: '[role="dialog"]' })
  await button(dialog, 'Revoke it').click()
  await expect(desk.getByText(/revoked .*: Lost at the station/)).toBeVisible()

  await note(phone, { brief, text: 'Written after.' })
  await expect(phone.getByText('This server lets in only devices that have joined.')).toBeVisible()
  await expect(shown(phone, /^The server does not let this device in · \d+ entries safe on this device/)).toBeVisible()
  await phone.reload()
  await expect(phone.getByText('Written after.')).toBeVisible()

  await comesBack(phone, await newInvitation(desk))
  await hearsAfterSession(desk, phone)
})

/** The key shown, and copied, is the one a receipt of this server names, in the groups in which the verifier shows it. */
async function comparesKey(desk: Page): Promise<void> {
  const part = desk.getByRole('region', { name: 'Key of this server' })
  const receipt = await desk.evaluate(async (path) => (await fetch(path)).text(), RECEIPT)
  const [told] = await verifyFiles([{ name: 'receipt.json', bytes: Buffer.from(receipt) }], {
    checkSignature: webCryptoCheck(),
  })
  expect(told?.verdict.sound).toBe(true)
  const shownByVerifier = told === undefined ? [] : verdictWords(told.verdict).facts
  const key = new Map(shownByVerifier).get('Key of who gave it') ?? ''
  expect(key).toMatch(/^(?:[0-9a-f]{4} ){15}[0-9a-f]{4}$/)
  await expect(part.getByText(key, { exact: true })).toBeVisible()
  await desk.context().grantPermissions(['clipboard-read', 'clipboard-write'])
  await button(part, 'Copy the key').click()
  await expect(desk.getByText('The key is copied.')).toBeVisible()
  expect(await desk.evaluate(() => navigator.clipboard.readText())).toBe(key)
}

/** A revoked phone joins anew, with all that is kept on it; what it could not send is recorded again under its new key. */
async function comesBack(phone: Page, invitation: string): Promise<void> {
  const beside = await phone.context().newPage()
  await beside.goto(`${app.url}/i/marram-house/brief`)
  await expect(beside.getByText('Written after.')).toBeVisible()
  await join(phone, { invitation, name: 'Phone of S. Sampler, again' })
  await expect(phone.getByRole('heading', { name: 'This device was revoked' })).toBeVisible()
  await inspect(phone, { name: 'revoked, phone', within: 'main' })
  await button(phone, 'Join as a new device').click()
  await expect(phone.getByText('This device is in as Phone of S. Sampler, again')).toBeVisible()
  await expect(beside.getByText('This device joined anew in another tab')).toBeVisible()
  await beside.close()
  await phone.goto(`${app.url}/i/marram-house/record`)
  const refused = phone.getByRole('region', { name: 'Refused by the server' })
  await expect(refused).toContainText('not revoked')
  await inspect(phone, { name: 'refused, phone' })
  await button(refused, 'Record it again').first().click()
  await expect(refused).toBeHidden()
  await expect(shown(phone, /^All \d+ entries are on the server/)).toBeVisible()
}

/** A session that ended is renewed, and news comes again by itself. */
async function hearsAfterSession(desk: Page, phone: Page): Promise<void> {
  await desk.goto(`${app.url}/i/marram-house/brief`)
  await expect(desk.getByText('Written after.').first()).toBeVisible()
  const stream = (status: number) =>
    desk.waitForResponse((answer) => answer.url().endsWith('/events') && answer.status() === status, {
      timeout: 60_000,
    })
  // the session is renewed only once the stream was refused, whatever else asks the server meanwhile
  const refused = stream(401)
  const reopened = refused.then(() => stream(200))
  await desk.route('**/api/session', async (route) => {
    if (route.request().method() === 'POST') await refused
    await route.continue()
  })
  expect(await desk.evaluate(async () => (await fetch('/api/session', { method: 'DELETE' })).status)).toBe(200)
  await refused
  await reopened
  await desk.unroute('**/api/session')
  await note(phone, { brief: `${app.url}/i/marram-house/brief`, text: 'After the session.' })
  await expect(desk.getByText('After the session.').first()).toBeVisible()
}

test('the screens of a server for one machine say that nobody has to join', async ({ page }) => {
  await page.goto('/devices')
  await expect(page.getByText('This server answers its own machine only')).toBeVisible()
  await inspect(page, { name: 'devices, open' })
  await page.goto('/join')
  await expect(page.getByText('Nobody has to join here')).toBeVisible()
})
