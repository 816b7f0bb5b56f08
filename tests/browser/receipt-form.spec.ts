import { readFileSync } from 'node:fs'
import { expect, type Page, test } from '@playwright/test'
import Papa from 'papaparse'
import { OKORO } from '../../demo/desk.ts'
import { entriesOf } from './job/entries.ts'
import { collect, toServer } from './job/field-round.ts'
import { inspect } from './job/inspect.ts'
import { watchPage } from './job/page-watch.ts'
import { button, choice, dialogOf, field, untilSynced } from './job/person.ts'

// The laboratory's receipt as a table: saved here, filled in there in a spreadsheet of its own habits, and brought back.
test.use({ actionTimeout: 20_000 })
test.setTimeout(180_000)

const LABORATORY = {
  laboratory: 'Quillhaven Water Laboratory',
  'received by, name': 'M. Aydin',
  'received by, role': 'reception',
  'received at (HH:MM, 24 h)': '18:30:00',
  'seal whole (yes or no)': 'Yes',
  'temperature on arrival': '6,1',
}
const ACCEPTED = ['Accepted', '', ''] as const

test('[RCF3] [RCF4] of a form with faults every one is named with its line, nothing is written, and a person completes the rest', async ({
  page,
}) => {
  const told = watchPage(page)
  const { form, labels } = await boxWithForm(page)
  const [leaking = '', unclear = '', missing = ''] = labels
  expect(labels.length).toBeGreaterThanOrEqual(3)
  const filled = fillIn(form, {
    head: { ...LABORATORY, 'received on (YYYY-MM-DD)': '05/04/2026' },
    samples: { [leaking]: ['LEAKING', 'no', 'half empty'], [unclear]: ['fine', '', ''] },
    without: missing,
    more: ['ZZZ-0001-00', 'bulk hot', '', 'accepted', '', ''],
  })
  await bringBack(page, filled)
  const problems = page.getByRole('alert', { name: /things to settle/ })
  await expect(problems.getByRole('listitem')).toHaveCount(4)
  await expect(problems).toContainText(/line 7, received on .*day and month may stand either way round/)
  const line = (start: string): number =>
    filled
      .toString()
      .split('\r\n')
      .findIndex((row) => row.includes(start)) + 1
  await expect(problems).toContainText(`line ${line(unclear)}, conditionexpected one of accepted, broken`)
  await expect(problems).toContainText(`line ${line('ZZZ')}, labelexpected a sample of Box 1; received "ZZZ-0001-00"`)
  await expect(problems).toContainText(`expected a row for ${missing}`)
  const aside = page.getByRole('complementary')
  await expect(aside).toContainText(
    `Nothing is written yet. ${labels.length - 2} of ${labels.length} samples could be read`,
  )
  await inspect(page, { name: 'a receipt form with faults' })
  expect(await entriesOf(page, 'consignment.received')).toEqual([])

  await button(page, 'Complete it by hand').click()
  const receipt = dialogOf(page, 'Laboratory receipt of Box 1')
  await expect(field(receipt, 'Laboratory')).toHaveValue(LABORATORY.laboratory)
  await expect(field(receipt, 'Temperature in the box')).toHaveValue('6.1')
  await expect(receipt.getByRole('region', { name: 'Wrong in the file' })).toContainText('ZZZ-0001-00')
  await inspect(page, { name: 'a receipt completed by hand', within: '[role="dialog"]' })
  await button(receipt, 'Record the receipt').click()
  await expect(receipt.getByRole('alert')).toContainText('when the laboratory received it')
  await expect(receipt.getByRole('alert')).toContainText(`nothing of ${unclear}, ${missing}`)
  await field(receipt, 'When, date').fill('2026-04-05')
  await field(receipt, 'When, time').fill('18:30')
  await button(receipt, `Something is wrong with ${missing}`).click()
  await field(receipt, 'Condition').last().selectOption('not in the box')
  await choice(receipt, { of: `${missing} is`, name: 'rejected, not examined' }).check()
  await receipt.getByRole('checkbox', { name: new RegExp(`^${unclear}.*as it should be$`) }).check()
  await button(receipt, 'Record the receipt').click()
  await sayWhoWrites(page)
  await expect(receipt).toBeHidden()
  await expect(page.getByRole('heading', { level: 1 })).toContainText('2 not simply accepted, 2 rejected')
  const [{ body } = { body: undefined }] = await entriesOf(page, 'consignment.received')
  expect(body?.at).toBe('2026-04-05T17:30:00.000Z')
  expect(body).toMatchObject({ laboratory: LABORATORY.laboratory, sealIntact: true, temperatureC: 6.1 })
  const said = new Map(body?.samples.map((each) => [each.label, each]))
  expect([...said.keys()].toSorted()).toEqual([...labels].toSorted())
  expect(said.get(leaking)).toMatchObject({ condition: 'leaking', rejected: true, notes: 'half empty' })
  expect(said.get(missing)).toMatchObject({ condition: 'not in the box', rejected: true })
  expect(said.get(unclear)).toMatchObject({ condition: 'accepted' })
  expect(told()).toEqual([])
})

test('[RCF2] a form that a spreadsheet saved its own way is shown as it was read, and written only once a person says so', async ({
  page,
}) => {
  const { form, labels } = await boxWithForm(page)
  const [rejected = ''] = labels
  await bringBack(
    page,
    fillIn(form, {
      head: { ...LABORATORY, 'received on (YYYY-MM-DD)': '14.03.2026' },
      samples: { [rejected]: ['too warm', 'no', '14 °C in the neck'] },
    }),
  )
  const aside = page.getByRole('complementary')
  await expect(aside).toContainText(
    `Quillhaven Water Laboratory, M. Aydin, 2026-03-14 18:30: ${labels.length} samples, 1 not simply accepted.`,
  )
  expect(await entriesOf(page, 'consignment.received')).toEqual([])
  await button(page, 'Record this receipt').click()
  await sayWhoWrites(page)
  await expect(page.getByRole('heading', { level: 1 })).toContainText('1 not simply accepted, 1 rejected')
  const [{ body } = { body: undefined }] = await entriesOf(page, 'consignment.received')
  expect(body?.at).toBe('2026-03-14T18:30:00.000Z')
  expect(body?.samples.find(({ label }) => label === rejected)).toMatchObject({ notes: '14 °C in the neck' })
})

test('[RCP4] [RCP5] a link and a file for one box are shown beside that box alone, and its page shows the box of the link in the address', async ({
  page,
  context,
}) => {
  const { round, labels } = collect('101 basin tap', 1)
  const { desk, investigation } = round
  const by = { at: '2026-03-04T10:00', by: OKORO }
  const boxes = ['Box 1', 'Box 2'] as const
  for (const consignment of boxes) desk.write('consignment.opened', { consignment, container: 'cooler' }, by)
  for (const [index, label] of labels.entries())
    desk.write('sample.packed', { consignment: boxes[index % 2] ?? 'Box 1', label }, by)
  await toServer(page, round)
  await page.goto(`/i/${investigation}/custody`)
  await untilSynced(page)
  const made = field(page.locator('body'), 'Send this to the laboratory')
  const linkFor = async (box: string): Promise<string> => {
    await page.getByRole('row', { name: box }).first().click()
    await expect(page.getByRole('complementary').getByRole('heading', { level: 2, name: box })).toBeVisible()
    await expect(made).toBeHidden()
    await button(page, `Make a link for the laboratory, ${box}`).click()
    return made.inputValue()
  }
  const first = await linkFor('Box 1')
  await bringBack(page, Buffer.from('no form of ours'))
  const wrong = page.getByRole('complementary').getByRole('alert')
  await expect(wrong).toBeVisible()
  const second = await linkFor('Box 2')
  await expect(wrong).toBeHidden()

  const laboratory = await context.newPage()
  await laboratory.goto(first)
  await expect(laboratory.getByRole('heading', { level: 1 })).toHaveText('Receipt of Box 1')
  await laboratory.goto(second)
  await expect(laboratory.getByRole('heading', { level: 1 })).toHaveText('Receipt of Box 2')
})

/** A sealed box of the samples of one stop, on the server, and the form its screen gives out. */
async function boxWithForm(page: Page): Promise<{ form: string; labels: readonly string[] }> {
  const { round, labels } = collect('101 basin tap', 1)
  const { desk, investigation } = round
  const by = { at: '2026-03-04T10:00', by: OKORO }
  desk.write('consignment.opened', { consignment: 'Box 1', container: 'cooler' }, by)
  for (const label of labels) desk.write('sample.packed', { consignment: 'Box 1', label }, by)
  desk.write('consignment.sealed', { consignment: 'Box 1', seal: '0451' }, by)
  await toServer(page, round)
  await page.goto(`/i/${investigation}/custody`)
  await untilSynced(page)
  const coming = page.waitForEvent('download')
  await button(page, 'Receipt form (CSV), Box 1').click()
  const form = readFileSync(await (await coming).path(), 'utf8')
  return {
    form,
    labels: Papa.parse<string[]>(form).data.flatMap(([name = '']) => (labels.includes(name) ? [name] : [])),
  }
}

interface Filled {
  readonly head: Readonly<Record<string, string>>
  readonly samples: Readonly<Record<string, readonly [condition: string, examined: string, notes: string]>>
  /** a row that is left out */
  readonly without?: string
  /** a row nobody asked for */
  readonly more?: readonly string[]
}

/** As a spreadsheet of another country saves it: a mark of its encoding, semicolons, every row as long as the longest. */
function fillIn(form: string, { head, samples, without, more }: Filled): Buffer {
  const given = Papa.parse<string[]>(form).data
  const first = given.findIndex(([name]) => name === 'label') + 1
  const rows = given
    .map((row, index) => {
      const [name = ''] = row
      if (index >= first && name !== '') return [...row.slice(0, 3), ...(samples[name] ?? ACCEPTED)]
      return head[name] === undefined ? row : [name, head[name]]
    })
    .filter(([name]) => name !== without)
  const all = more === undefined ? rows : [...rows.filter((row) => row.some((cell) => cell !== '')), more]
  const even = all.map((row) => Array.from({ length: 6 }, (_, column) => row[column] ?? ''))
  return Buffer.from(`\uFEFF${Papa.unparse(even, { delimiter: ';', newline: '\r\n' })}\r\n`)
}

async function bringBack(page: Page, buffer: Buffer): Promise<void> {
  const chosen = page.waitForEvent('filechooser')
  await page
    .getByRole('region', { name: 'Receipt by the laboratory' })
    .getByRole('button', { name: 'Choose a file' })
    .click()
  await (await chosen).setFiles({ name: 'Box 1 receipt (2).csv', mimeType: 'text/csv', buffer })
}

async function sayWhoWrites(page: Page): Promise<void> {
  const asked = dialogOf(page, 'Who is writing?')
  await field(asked, 'Your name').fill('T. Okoro')
  await field(asked, 'Your name').press('Enter')
}
