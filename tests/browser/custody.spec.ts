import { execFileSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { hashGroups } from '@rillmark/casebook/record/verdict-words.ts'
import { verifyFiles } from '@rillmark/exchange/verify/verify-files.ts'
import { webCryptoCheck } from '@rillmark/exchange/verify/web-crypto-check.ts'
import { expect, type Locator, type Page, test } from '@playwright/test'
import { sign } from './job/custody.ts'
import { collect, toServer } from './job/field-round.ts'
import { inspect } from './job/inspect.ts'
import { watchPage } from './job/page-watch.ts'
import { button, choice, dialogOf, field, untilSynced } from './job/person.ts'

// Custody in the hand: 390 px wide, from the bottle to the laboratory's own page.
test.use({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true, actionTimeout: 20_000 })
test.setTimeout(240_000)

const LOGGER = [
  'Logger T-17;;',
  'Date;Time;Temperature (°C)',
  '04.03.2026;10:00;5,0',
  '04.03.2026;10:05;5,4',
  '04.03.2026;10:10;ERR',
  '04.03.2026;10:15;9,2',
  '04.03.2026;10:20;6,0',
].join('\r\n')

test('a box is packed label after label, sealed, signed over on the glass, and received by the laboratory through its link', async ({
  page,
}) => {
  const told = watchPage(page)
  const { round, labels } = collect('101 basin tap')
  await toServer(page, round)
  await page.goto(`/i/${round.investigation}/custody`)
  const main = page.getByRole('main')

  await button(main, 'Open a consignment').tap()
  await button(dialogOf(page, 'Open a consignment'), 'Open it').tap()
  await sayWhoWrites(page)
  await packByLabel(page, labels)
  await staysNarrow(page)

  await readLogger(page)
  await staysNarrow(page)

  await button(main, 'Seal, Box 1').tap()
  await field(dialogOf(page, 'Seal Box 1'), 'Number on the seal').fill('0451')
  await button(dialogOf(page, 'Seal Box 1'), 'Seal it').tap()
  await expect(button(main, 'Scan labels into Box 1')).toBeHidden()

  await handOver(page)
  const chain = page.getByRole('region', { name: 'Chain of custody' })
  await expect(chain).toContainText('signed on the glass')
  await expect(chain.getByRole('img', { name: 'signed on the glass: J. Brandt' })).toBeVisible()

  await untilSynced(page)
  await button(main.or(page.getByRole('complementary')), 'Make a link for the laboratory, Box 1').tap()
  const url = await field(page.locator('body'), 'Send this to the laboratory').inputValue()
  await receive(page, { url, label: labels[0] ?? '' })

  await page.goto(`/i/${round.investigation}/custody`)
  await expect(page.getByRole('heading', { level: 1 })).toContainText('1 not simply accepted, 1 rejected')
  await expect(page.getByText('receipt written')).toBeVisible()
  await keepReceipt(page, labels[0] ?? '')
  await page.goto(`/i/${round.investigation}/brief`)
  await expect(page.getByText('Sample again: the laboratory rejected 1 sample', { exact: true }).first()).toBeVisible()
  expect(told()).toEqual([])
})

test('a link that was taken back opens nothing, and says so', async ({ page }) => {
  await page.goto('/receipt#0000')
  await expect(page.getByRole('heading', { name: 'This link opens nothing' })).toBeVisible()
  await staysNarrow(page)
})

async function sayWhoWrites(page: Page): Promise<void> {
  const asked = dialogOf(page, 'Who is writing?')
  await field(asked, 'Your name').fill('T. Okoro')
  await field(asked, 'Your name').press('Enter')
  await expect(page.getByRole('row', { name: 'Box 1' })).toBeVisible()
}

/** The scanner stays open and answers each label at once, right or wrong; without a camera the labels are typed into it. */
async function packByLabel(page: Page, labels: readonly string[]): Promise<void> {
  await button(page, 'Scan labels into Box 1').tap()
  const scanner = dialogOf(page, 'Pack into Box 1')
  const typed = field(scanner, 'Or type a label')
  for (const [index, label] of labels.entries()) {
    await typed.fill(label)
    await typed.press('Enter')
    await expect(scanner).toContainText(`${label} is in Box 1`)
    await expect(scanner).toContainText(`${index + 1} packed now`)
  }
  await typed.fill(labels[0] ?? '')
  await typed.press('Enter')
  await expect(scanner).toContainText(`${labels[0]} is already in Box 1.`)
  await button(scanner, 'Close').tap()
}

/** A logger's file is looked at before it is written: the bad row by its line, the gap, the readings behind the chart. */
async function readLogger(page: Page): Promise<void> {
  await button(page, 'Read a logger, Box 1').tap()
  const dialog = dialogOf(page, 'Read a logger of Box 1')
  const chosen = page.waitForEvent('filechooser')
  await button(dialog, 'Choose a file').tap()
  await (await chosen).setFiles({ name: 'T-17.csv', mimeType: 'text/csv', buffer: Buffer.from(LOGGER) })
  await expect(dialog).toContainText('1 row is left out')
  await dialog.getByText('Which rows, and why').tap()
  await expect(dialog.getByRole('listitem')).toContainText('no temperature: "ERR"')
  await field(dialog, 'Logger').fill('T-17')
  await button(dialog, 'Write 4 readings').tap()
  await expect(dialog).toBeHidden()
  await expect(page.getByRole('region', { name: 'Temperature loggers' })).toContainText('Logger T-17: 4 readings')
}

async function handOver(page: Page): Promise<void> {
  await button(page, 'Hand over, Box 1').tap()
  const over = dialogOf(page, 'Hand over Box 1')
  await field(over, 'Given by, role').fill('sampler')
  await field(over, 'Taken by, name').fill('J. Brandt')
  await choice(over, { of: 'Seal 0451', name: 'whole' }).check()
  await button(over, 'Record the hand-over').tap()
  await expect(over.getByRole('alert')).toContainText('signature')
  await choice(over, { of: 'J. Brandt …', name: 'signs here' }).check()
  await expect(over.getByRole('note', { name: 'Caution' })).toContainText('local law')
  await sign(page, over)
  await button(over, 'Record the hand-over').tap()
  await expect(over.getByRole('alert')).toBeVisible()
  await field(over, 'Taken by, role').fill('courier')
  // signed once more: another picture, and the one of the refused hand-over is nobody's
  await over.getByRole('img', { name: /^Signature of/ }).tap({ position: { x: 12, y: 12 } })
  await button(over, 'Record the hand-over').tap()
  await expect(over).toBeHidden()
  await expect.poll(() => picturesKept(page)).toBe(1)
}

/** How many pictures this browser keeps. */
function picturesKept(page: Page): Promise<number> {
  return page.evaluate(
    () =>
      new Promise<number>((done, failed) => {
        const opening = indexedDB.open('rillmark')
        opening.addEventListener('error', () => failed(opening.error ?? new Error('the database did not open')))
        opening.addEventListener('success', () => {
          const counting = opening.result.transaction('attachments').objectStore('attachments').count()
          counting.addEventListener('success', () => {
            opening.result.close()
            done(counting.result)
          })
        })
      }),
  )
}

/** The laboratory, on a phone of its own, with nothing but the link. */
async function receive(page: Page, { url, label }: { url: string; label: string }): Promise<void> {
  await page.goto('about:blank')
  await page.goto(url)
  const main: Locator = page.getByRole('main')
  await expect(main.getByRole('heading', { level: 1 })).toHaveText('Receipt of Box 1')
  await button(main, 'Send the receipt').tap()
  await expect(main.getByRole('alert')).toContainText('laboratory')
  await field(main, 'Laboratory').fill('Quillhaven Water Laboratory')
  await field(main, 'Received by, name').fill('M. Aydin')
  await choice(main, { of: 'Seal', name: 'whole' }).check()
  await field(main, 'Number on the seal, as read').fill('0451')
  await field(main, 'Temperature in the box').fill('6.1')
  await button(main, `Something is wrong with ${label}`).tap()
  await field(main, 'Condition').selectOption('too warm')
  await choice(main, { of: `${label} is`, name: 'rejected, not examined' }).check()
  await staysNarrow(page)
  await button(main, 'Send the receipt').tap()
  await expect(main.getByRole('alert')).toContainText('nothing of')
  for (const box of await main.getByRole('checkbox', { name: /here and as it should be$/ }).all()) await box.check()
  await button(main, 'Send the receipt').tap()
  await expect(main.getByRole('heading', { name: 'Received' })).toBeVisible()
  await expect(main).toContainText(`${label} too warm, rejected`)
}

/** What the other party can hold: a file that the verifier finds sound, alone and beside the package, signed by the server. */
async function keepReceipt(page: Page, label: string): Promise<void> {
  // on a phone a long list is folded
  if (!(await button(page, `Receipt to keep of ${label}`).isVisible()))
    await page.getByText('The samples in Box 1', { exact: true }).tap()
  await button(page, `Receipt to keep of ${label}`).tap()
  const dialog = dialogOf(page, `Receipt of ${label}, to keep`)
  await staysNarrow(page)
  await inspect(page, { name: 'receipt to keep', within: '[role="dialog"]' })
  const coming = page.waitForEvent('download')
  await button(dialog, `Receipt (file), ${label}`).tap()
  const bytes = readFileSync(await (await coming).path())
  const [{ verdict } = { verdict: undefined }] = await verifyFiles([{ name: 'receipt.json', bytes }], {
    checkSignature: webCryptoCheck(),
  })
  expect(verdict).toMatchObject({ sound: true, findings: [], facts: { sample: label } })
  expect(verdict?.facts.givenKey).toMatch(/^[0-9a-f]{64}$/)
  const paper = page.waitForEvent('download')
  await button(dialog, `Page to keep (PDF), ${label}`).tap()
  const page1 = execFileSync('pdftotext', ['-layout', await (await paper).path(), '-'], { encoding: 'utf8' })
  expect(page1).toContain(hashGroups(verdict?.facts.root ?? ''))
  expect(page1).toContain(hashGroups(verdict?.facts.givenKey ?? ''))
  await button(dialog, 'Close').tap()
  await button(page, 'Receipt to keep of Box 1').tap()
  await expect(dialogOf(page, 'Receipt of Box 1, to keep')).toBeVisible()
  await button(dialogOf(page, 'Receipt of Box 1, to keep'), 'Close').tap()
}

/** The page is as wide as the window. */
async function staysNarrow(page: Page): Promise<void> {
  const excessPx = await page.evaluate(
    () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
  )
  expect(excessPx, 'wider than the window by px').toBeLessThanOrEqual(0)
}
