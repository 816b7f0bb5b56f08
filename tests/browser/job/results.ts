import { writeFile } from 'node:fs/promises'
import { expect, type Locator, type Page, test } from '@playwright/test'
import { makeLabel } from '@rillmark/casebook/label/label.ts'
import { addDays } from '@rillmark/science/calendar/iso-date.ts'
import { misKeyed } from './custody.ts'
import { entriesOf } from './entries.ts'
import { button, dialogOf, field, go } from './person.ts'

type Collected = Awaited<ReturnType<typeof entriesOf<'sample.collected'>>>[number]

/** What went wrong on the way to the laboratory's file, by the label as the file writes it. */
interface Traps {
  readonly comma: string
  readonly date: string
  readonly misKeyed: { readonly written: string; readonly meant: string }
  readonly unknown: string
  readonly foreign: string
}

const HEAD = 'Sample label,Collected,Reported,Report no.,Result,Unit,Species,Serogroup'
const DAYS_OF_CULTURE = 10

/** The file a laboratory sends of these samples, with what is known to go wrong in such files. */
function laboratoryFile(samples: readonly Collected[], broken: string): { csv: string; traps: Traps } {
  const water = samples.filter(({ body }) => isWater(body.sampleKind) && body.label !== broken)
  const [comma = '', date = ''] = water.map(({ body }) => body.label)
  const meant = samples.findLast(({ body }) => ![comma, date, broken].includes(body.label))?.body.label ?? ''
  const highest = Math.max(...samples.map(({ body }) => Number(body.label.slice(4, 8))))
  const unknown = makeLabel({ prefix: comma.slice(0, 3), number: highest + 40 }).id
  const traps = { comma, date, misKeyed: { written: misKeyed(meant), meant }, unknown, foreign: 'POOL 3' }
  const lines = samples.map((sample) => {
    const { label } = sample.body
    if (label === broken) return line(label, sample, ['broken', ''])
    if (label === comma) return line(label, sample, ['"1,250"', 'CFU/mL'])
    if (label === date) return line(label, sample, ['4-May', 'CFU/mL'])
    const written = label === meant ? traps.misKeyed.written : label
    return line(written, sample, isWater(sample.body.sampleKind) ? ['< 0.05', 'CFU/mL'] : ['not detected', ''])
  })
  const strangers = [unknown, traps.foreign].map((label) => line(label, samples[0], ['< 0.05', 'CFU/mL']))
  return { csv: [HEAD, ...lines, ...strangers].join('\r\n'), traps }
}

const isWater = (kind: string): boolean => !['first-flush-swab', 'field-blank'].includes(kind)

function line(label: string, sample: Collected | undefined, [result, unit]: readonly [string, string]): string {
  const collected = sample?.instant.slice(0, 10) ?? ''
  const grew = /\d$|May|"/.test(result) && !result.startsWith('<')
  const type = grew ? 'L. pneumophila,1' : ','
  return [label, collected, addDays(collected, DAYS_OF_CULTURE), 'QWL-0311', result, unit, type].join(',')
}

/** The same file once more: it says when and by whom it was accepted, and offers nothing to accept. */
async function dropAgain(page: Page, { main, path }: { main: Locator; path: string }): Promise<void> {
  await dropFile(main.getByText('CSV or XLSX, at most 20 MB.'), path)
  await expect(main.getByRole('note').filter({ hasText: /accepted on .* by R\. Investigator/ })).toBeVisible()
  await expect(button(main, /^(Accept|Record)/)).toHaveCount(0)
  await button(main, 'Put the file away').click()
  await expect(main.getByText('CSV or XLSX, at most 20 MB.')).toBeVisible()
}

/** The laboratory's file is dropped, looked through, its traps settled one by one, and taken into the record. */
export async function importResults(page: Page, broken: string): Promise<void> {
  const samples = await entriesOf(page, 'sample.collected')
  const { csv, traps } = laboratoryFile(samples, broken)
  const main = await go(page, 'Results')
  const path = test.info().outputPath('QWL-0311.csv')
  await writeFile(path, csv)
  await dropFile(main.getByText('CSV or XLSX, at most 20 MB.'), path)
  await expect(page.getByRole('heading', { level: 1, name: 'Look the file through' })).toBeVisible()
  await field(main, 'Laboratory').fill('Quillhaven Water Laboratory')
  await page.keyboard.press('Tab')
  await expect(main.getByRole('tab', { name: /^To look at/ })).toContainText('5')
  const accept = button(main, /^Accept \d+ rows$/)
  await expect(accept).toBeDisabled()
  await settle(page, { main, traps })
  await expect(accept).toHaveText(`Accept ${samples.length} rows`)
  await accept.click()
  await expect(page.getByRole('heading', { level: 1 })).toHaveText(
    `${samples.length} of ${samples.length} samples have a result`,
  )
  await dropAgain(page, { main, path })
  const results = await entriesOf(page, 'result.reported')
  const valueOf = (label: string) => results.find(({ body }) => body.label === label)?.body.value
  expect(valueOf(traps.comma)).toMatchObject({ kind: 'count', value: 1.25, unit: 'CFU/mL' })
  expect(valueOf(traps.date)).toMatchObject({ kind: 'count', value: 4.5, unit: 'CFU/mL' })
  expect(valueOf(traps.misKeyed.meant)).toBeDefined()
  expect(valueOf(broken)).toMatchObject({ kind: 'broken' })
  expect(results.map(({ body }) => body.label).sort()).toEqual(samples.map(({ body }) => body.label).sort())
}

async function settle(page: Page, { main, traps }: { main: Locator; traps: Traps }): Promise<void> {
  const row = (label: string): Locator =>
    main.getByRole('listitem').filter({ has: page.getByText(label, { exact: true }) })
  const comma = row(traps.comma)
  await expect(main.getByRole('region', { name: /decimal comma or point in doubt/i })).toContainText(traps.comma)
  await button(comma, /^Read as 1\.25 CFU\/mL/).click()
  await expect(comma).toContainText('read as 1.25 CFU/mL')
  const date = row(traps.date)
  await expect(main.getByRole('region', { name: /a number turned into a date/i })).toContainText('4-May')
  await button(date, /^Read as 4\.5 CFU\/mL/).click()
  await expect(date).toContainText('read as 4.5 CFU/mL')
  const mistaken = row(traps.misKeyed.written)
  await expect(mistaken).toContainText('check digits do not fit')
  await button(mistaken, `It is ${traps.misKeyed.meant}`).click()
  await expect(mistaken).toBeHidden()
  for (const [label, why] of [
    [traps.unknown, 'The laboratory says the label was read from another customer’s bottle.'],
    [traps.foreign, 'Not a sample of this investigation.'],
  ] as const) {
    await button(row(label), 'Set aside').click()
    const dialog = dialogOf(page, /^Set aside row \d+$/)
    await expect(button(dialog, 'Set aside')).toBeDisabled()
    await field(dialog, 'Why').fill(why)
    await button(dialog, 'Set aside').click()
    await expect(row(label)).toContainText(`set aside: ${why}`)
  }
}

/** Drops a file from the desktop onto the screen, as the browser is told of one: it hovers first, then is let go. */
async function dropFile(onto: Locator, path: string): Promise<void> {
  const box = await onto.boundingBox()
  if (box === null) throw new Error('There is nothing in view to drop a file on')
  const at = { x: box.x + box.width / 2, y: box.y + box.height / 2 }
  const browser = await onto.page().context().newCDPSession(onto.page())
  const data = { items: [], files: [path], dragOperationsMask: 1 }
  for (const type of ['dragEnter', 'dragOver', 'drop'] as const)
    await browser.send('Input.dispatchDragEvent', { type, ...at, data })
  await browser.detach()
}
