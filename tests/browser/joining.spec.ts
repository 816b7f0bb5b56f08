import { expect as soon, type Page, test } from '@playwright/test'
import { emptyHead, linkEntries } from '@rillmark/casebook/chain/link.ts'
import { writePackage } from '@rillmark/exchange/package/write-package.ts'
import { device, join, newInvitation, note, shown } from './job/closed.ts'
import { makeRound } from './job/field-round.ts'
import { inspect } from './job/inspect.ts'
import { type OwnApp, startOwnApp } from './job/own-app.ts'
import { rillmark } from './job/package.ts'
import { button, go } from './job/person.ts'
import { startInvestigation } from './job/start-and-cases.ts'

// What was written before a device was let in, or without a key, on a server that lets in only who was invited.
test.setTimeout(420_000)
const expect = soon.configure({ timeout: 60_000 })

const PHONE = { width: 390, height: 844 }
let app: OwnApp
let desk: Page
test.beforeAll(async ({ browser }) => {
  app = await startOwnApp({ closed: true })
  desk = await device(browser, { width: 1440, height: 900 })
  await join(desk, { invitation: app.invitation ?? '', name: 'Desk of R. Vale' })
  await expect(desk.getByText('Desk of R. Vale is in')).toBeVisible()
})
test.afterAll(() => app.remove())

test('[SYN20] [OFF10] what a phone wrote before it joined waits on it, arrives signed once it is in, and nothing is lost', async ({
  browser,
}) => {
  const phone = await device(browser, PHONE)
  const id = await startInvestigation(phone, app.url)
  const brief = `${app.url}/i/${id}/brief`
  await note(phone, { brief, text: 'Written before anyone let me in.' })
  await expect(shown(phone, /^The server does not let this device in · 2 entries safe on this device/)).toBeVisible()
  await inspect(phone, { name: 'not in, phone' })
  await phone.reload()
  await expect(phone.getByText('Written before anyone let me in.')).toBeVisible()
  expect(await onServer(desk)).not.toContain(id)

  await desk.goto(`${app.url}/devices`)
  await join(phone, { invitation: await newInvitation(desk), name: 'Phone of S. Sampler' })
  await expect(phone.getByText('Phone of S. Sampler is in')).toBeVisible()
  await phone.goto(brief)
  await expect(shown(phone, /^All 3 entries are on the server/)).toBeVisible()

  await desk.goto(brief)
  await expect(desk.getByText('Written before anyone let me in.')).toBeVisible()
  await go(desk, 'Record')
  const rows = desk.getByRole('row')
  await expect(rows.filter({ hasText: 'Device joined' })).toContainText('Phone of S. Sampler')
  await expect(rows).toHaveCount(1 + 3)
  await expect(desk.getByText('not signed')).toHaveCount(0)
  await button(desk, 'Check the chain').click()
  await expect(desk.getByRole('status').filter({ hasText: 'Sound:' })).toContainText(
    'All are signed, and every signature fits.',
  )
  expect(await rillmark('verify', id, '--data', app.dataFolder)).toMatch(/^Sound: 3 entries, 3 signed, [^\n]*\n$/)
})

test('[SYN20] what was written before by somebody who then joins to read only stays on that device, with the reason', async ({
  browser,
}) => {
  const phone = await device(browser, PHONE)
  const id = await startInvestigation(phone, app.url)
  const brief = `${app.url}/i/${id}/brief`
  await note(phone, { brief, text: 'A reader’s thought.' })
  await desk.goto(`${app.url}/devices`)
  await join(phone, { invitation: await newInvitation(desk, 'reader'), name: 'Reader of the agency' })
  await expect(phone.getByText('Reader of the agency is in')).toBeVisible()
  await phone.goto(`${app.url}/i/${id}/record`)
  const refused = phone.getByRole('region', { name: 'Refused by the server' })
  await expect(refused).toContainText('2 entries were refused')
  await expect(refused).toContainText('A reader’s thought.')
  await expect(refused).toContainText('a reader, as which it has joined')
  await inspect(phone, { name: 'a reader wrote, phone' })
  await phone.reload()
  await expect(refused).toContainText('A reader’s thought.')
  expect(await onServer(desk)).not.toContain(id)
})

test('[REC28] entries that came unsigned in a package are marked in Record, and named by the check and by verify', async () => {
  const { investigation: id, desk: writer } = makeRound('101 basin tap')
  const links = linkEntries(emptyHead(id), { entries: writer.entries, received: '2026-03-05T10:00:00.000Z' })
  await desk.goto(app.url)
  const chosen = desk.waitForEvent('filechooser')
  await button(desk, 'Choose a file').click()
  await (await chosen).setFiles({
    name: 'brought.zip',
    mimeType: 'application/zip',
    buffer: Buffer.from(writePackage(links, { attachments: new Map() })),
  })
  await desk.waitForURL(/\/brief$/)
  await go(desk, 'Record')
  await expect(desk.getByRole('row').first()).toBeVisible()
  // nobody signed anything: said once, not in every row
  await expect(desk.getByText('not signed')).toHaveCount(0)
  await button(desk, 'Check the chain').click()
  await expect(desk.getByRole('status').filter({ hasText: 'Sound:' })).toContainText('None is signed.')

  await note(desk, { brief: `${app.url}/i/${id}/brief`, text: 'Signed here.' })
  await expect(shown(desk, /^All \d+ entries are on the server/)).toBeVisible()
  await go(desk, 'Record')
  const count = links.length
  await expect(desk.getByRole('row').filter({ hasText: 'Signed here.' })).not.toContainText('not signed')
  await expect(desk.getByRole('row').filter({ hasText: 'Instrument' }).first()).toContainText('not signed')
  await desk.getByRole('row').filter({ hasText: 'Instrument' }).first().click()
  await expect(desk.getByRole('complementary')).toContainText('none: who wrote it stands on the word of')
  await inspect(desk, { name: 'unsigned in Record' })
  await button(desk, 'Check the chain').click()
  await expect(desk.getByRole('status').filter({ hasText: 'Sound:' })).toContainText(
    `2 are signed and fit, ${count} carry no signature.`,
  )
  expect(await rillmark('verify', id, '--data', app.dataFolder)).toContain(
    `Note: ${count} entries are not signed (1 to ${count}): the chain shows that they fit together, not who wrote them.`,
  )
})

test('[OFF11] [OFF14] an invitation opened at Join is taken, what can’t be kept is said and tried again, and only the device it let in is said to be', async ({
  browser,
}) => {
  const [first, second] = [await device(browser, PHONE), await device(browser, PHONE)]
  await desk.goto(`${app.url}/devices`)
  const one = await newInvitation(desk)
  await button(desk, 'Close').click()
  const two = await newInvitation(desk)

  await first.goto(`${app.url}/join`)
  await expect(first.getByText('An invitation is needed')).toBeVisible()
  await first.evaluate(() => {
    const put = Reflect.get(IDBObjectStore.prototype, 'put') as IDBObjectStore['put']
    IDBObjectStore.prototype.put = function once(value: unknown, key?: IDBValidKey) {
      if (key !== 'enrolled') return put.call(this, value, key)
      IDBObjectStore.prototype.put = put
      throw new DOMException('no room', 'QuotaExceededError')
    }
  })
  await join(first, { invitation: one, name: 'The first phone' })
  expect(new URL(first.url()).hash).toBe('')
  await expect(first.getByRole('alert')).toContainText('no room')
  await button(first, 'Join').click()
  await expect(first.getByText('The first phone is in')).toBeVisible()

  await expect(desk.getByText('The first phone', { exact: true })).toBeVisible()
  await expect(desk.locator('.invitation-link')).toHaveText(two)
  await join(second, { invitation: two, name: 'The second phone' })
  await expect(desk.getByRole('dialog', { name: 'The second phone is in' })).toBeVisible()
})

test('[OFF14] with a device the laboratory links it made can be ended', async ({ browser }) => {
  const phone = await device(browser, PHONE)
  await desk.goto(`${app.url}/devices`)
  await join(phone, { invitation: await newInvitation(desk), name: 'A lost phone' })
  await expect(phone.getByText('A lost phone is in')).toBeVisible()
  await desk.route('**/api/devices', async (route) => {
    const answer = await route.fetch()
    const { devices } = (await answer.json()) as { devices: object[] }
    await route.fulfill({ response: answer, json: { devices: devices.map((each) => ({ ...each, links: 2 })) } })
  })
  await desk.goto(`${app.url}/devices`)
  await button(desk, 'Revoke A lost phone').click()
  const dialog = desk.getByRole('dialog', { name: 'Revoke A lost phone' })
  await dialog.getByLabel('Reason').fill('Left on a bus.')
  await dialog.getByLabel('Also end the 2 laboratory links made on it').check()
  await inspect(desk, { name: 'revoking with links', within: '[role="dialog"]' })
  const asked = desk.waitForRequest('**/revocation')
  await button(dialog, 'Revoke it').click()
  expect((await asked).postDataJSON()).toEqual({ reason: 'Left on a bus.', endLinks: true })
  await expect(dialog).toBeHidden()
  await desk.unroute('**/api/devices')
})

/** The investigations the server holds, as a device that is in is told. */
async function onServer(page: Page): Promise<string> {
  return page.evaluate(async () => (await fetch('/api/investigations')).text())
}
