import { expect, type Locator, type Page } from '@playwright/test'
import { entriesOf } from './entries.ts'
import { button, choice, dialogOf, field, go } from './person.ts'

/** A box is opened and every collected sample packed by its label and Enter; a label mis-keyed or packed twice is refused with the reason. */
export async function packSamples(page: Page): Promise<string> {
  const main = await go(page, 'Custody')
  const labels = (await entriesOf(page, 'sample.collected')).map(({ body }) => body.label)
  const box = await openBox(page, main)
  const typed = field(main, `Label to pack into ${box}`)
  const [first = ''] = labels
  await typed.fill(misKeyed(first))
  await typed.press('Enter')
  await expect(main.getByRole('alert')).toContainText('check digits do not fit')
  await expect(button(main, 'Pack')).toBeDisabled()
  for (const label of labels) {
    await typed.fill(label.toLowerCase())
    await expect(main.getByText(label).first()).toBeVisible()
    await typed.press('Enter')
    await expect(main.getByText(`${label} is in.`)).toBeVisible()
  }
  await typed.fill(first)
  await expect(main.getByRole('alert')).toContainText(`${first} is already in ${box}`)
  await typed.fill('')
  await expect(main.getByRole('region', { name: `In ${box}`, exact: true })).toContainText(`${labels.length} samples`)
  return box
}

async function openBox(page: Page, main: Locator): Promise<string> {
  await button(main, 'Open a consignment').click()
  const dialog = dialogOf(page, 'Open a consignment')
  const code = await field(dialog, 'Code').inputValue()
  await field(dialog, 'Keep at, from').fill('2')
  await field(dialog, 'to').fill('8')
  await button(dialog, 'Open it').click()
  await expect(dialog).toBeHidden()
  return code
}

/** One digit wrong, as a tired hand types it. */
export function misKeyed(label: string): string {
  return label.replace(/\d$/, (digit) => String((Number(digit) + 1) % 10))
}

/** How warm it is, the seal, and the way to the laboratory, hand by hand. */
export async function sealAndHandOver(page: Page, box: string): Promise<void> {
  const main = page.getByRole('main')
  await button(main, `Log temperature, ${box}`).click()
  const warm = dialogOf(page, `Temperature in ${box}`)
  await field(warm, 'Temperature in the box').fill('6,4')
  await field(warm, 'Where it was read').fill('between the bottles')
  await button(warm, 'Log it').click()
  await expect(main.getByRole('row', { name: box })).toContainText('6.4 °C')

  await button(main, `Seal, ${box}`).click()
  const seal = dialogOf(page, `Seal ${box}`)
  await field(seal, 'Number on the seal').fill('0451')
  await button(seal, 'Seal it').click()
  await expect(main.getByRole('row', { name: box })).toContainText('sealed')
  await expect(field(main, `Label to pack into ${box}`)).toBeHidden()

  await button(main, `Hand over, ${box}`).click()
  const over = dialogOf(page, `Hand over ${box}`)
  await field(over, 'Given by, role').fill('sampler')
  await field(over, 'Taken by, name').fill('J. Brandt')
  await field(over, 'Taken by, role').fill('courier')
  await button(over, 'Record the hand-over').click()
  await expect(over.getByRole('alert')).toContainText('seal')
  await choice(over, { of: 'Seal 0451', name: 'whole' }).check()
  await choice(over, { of: 'J. Brandt …', name: 'signs here' }).check()
  await sign(page, over)
  await button(over, 'Record the hand-over').click()
  await expect(main.getByRole('row', { name: box })).toContainText('J. Brandt')
}

/** A signature is drawn on the glass. */
export async function sign(page: Page, dialog: Locator): Promise<void> {
  const glass = dialog.getByRole('img', { name: /^Signature of/ })
  await glass.scrollIntoViewIfNeeded()
  const box = await glass.boundingBox()
  const at = (x: number, y: number): [number, number] => [
    (box?.x ?? 0) + (box?.width ?? 0) * x,
    (box?.y ?? 0) + (box?.height ?? 0) * y,
  ]
  await page.mouse.move(...at(0.2, 0.7))
  await page.mouse.down()
  for (const [x, y] of [
    [0.3, 0.2],
    [0.4, 0.8],
    [0.5, 0.4],
    [0.7, 0.6],
  ] as const)
    await page.mouse.move(...at(x, y))
  await page.mouse.up()
  await expect(dialog.getByText('Signed.')).toBeVisible()
}

/** The laboratory takes the box in; one bottle arrived broken. Gives back its label. */
export async function receiveInLaboratory(page: Page, box: string): Promise<string> {
  const main = page.getByRole('main')
  const samples = await entriesOf(page, 'sample.collected')
  const broken = samples.findLast(({ body }) => body.sampleKind.startsWith('bulk'))?.body.label ?? ''
  expect(broken).not.toBe('')
  await button(main, `Laboratory receipt, ${box}`).click()
  const receipt = dialogOf(page, `Laboratory receipt of ${box}`)
  await field(receipt, 'Laboratory').fill('Quillhaven Water Laboratory')
  await field(receipt, 'Received by, name').fill('M. Aydin')
  await choice(receipt, { of: 'Seal', name: 'whole' }).check()
  await field(receipt, 'Temperature in the box').fill('6.1')
  await button(receipt, `Something is wrong with ${broken}`).click()
  await field(receipt, 'Condition').selectOption('broken')
  await choice(receipt, { of: `${broken} is`, name: 'rejected, not examined' }).check()
  await field(receipt, 'Notes').fill('neck cracked')
  await button(receipt, /here and as they should be$/).click()
  await button(receipt, 'Record the receipt').click()
  await expect(page.getByRole('heading', { level: 1 })).toHaveText(
    'Every sample reached the laboratory; 1 not simply accepted, 1 rejected',
  )
  await expect(main.getByRole('row').filter({ hasText: broken })).toContainText('broken: neck cracked')
  const chain = page.getByRole('region', { name: 'Chain of custody' })
  for (const hand of ['J. Brandt', 'M. Aydin']) await expect(chain).toContainText(hand)
  return broken
}
