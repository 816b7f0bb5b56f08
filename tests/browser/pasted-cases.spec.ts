import { expect, type Page, test } from '@playwright/test'
import { button, dialogOf, field, go } from './job/person.ts'
import { watchPage } from './job/page-watch.ts'
import { startInvestigation } from './job/start-and-cases.ts'
import { pretendDay } from './job/pretend-day.ts'

// A spreadsheet is pasted by its clipboard, as large as people paste them by mistake. Every row is invented.

test('a large paste is refused from its size, a long one is read beside the text area, and all of it is recorded or nothing', async ({
  page,
}) => {
  const told = watchPage(page)
  await pretendDay(page, '2026-03-02T09:00:00')
  await startInvestigation(page)
  const main = await go(page, 'Cases')
  await button(main, 'Paste from a spreadsheet').first().click()
  const dialog = dialogOf(page, 'Paste cases from a spreadsheet')

  const answeredMs = await paste(page, rowsOf(20_000))
  await expect(dialog.getByRole('alert')).toContainText('at most 5000 rows in one go')
  await expect(field(dialog, 'Rows')).toHaveValue('')
  expect(answeredMs).toBeLessThan(HANGS_MS)

  expect(
    await paste(page, rowsOf(1200, 'C-7\t2026-12-01\tprobable\tRoom 1\tstay\t2026-02-10\t2026-02-18')),
  ).toBeLessThan(HANGS_MS)
  await expect(dialog.getByText('1202 lines are read')).toBeVisible()
  await button(dialog, /^Record 41 cases/).click()
  await expect(dialog.getByRole('alert')).toContainText('Nothing of it was recorded')
  await expect(dialog.getByRole('alert')).toContainText('C-7 onset date')
  await button(dialog, 'Take them away').click()

  await paste(page, rowsOf(1200))
  await expect(dialog.getByText('Twice in the rows, taken once: 1000 exposures.')).toBeVisible()
  await button(dialog, 'Record 40 cases, 200 exposures').click()
  await expect(dialog).toBeHidden()
  await expect(main.getByRole('heading', { level: 1 })).toContainText('40 cases')
  expect(told()).toEqual([])
})

/** Only a page that hangs takes this long to answer after a paste; how fast it answers is not for a test. */
const HANGS_MS = 30_000

/** Rows of 40 cases, 5 stays each, again and again. */
function rowsOf(count: number, ...more: string[]): string {
  const rows = Array.from({ length: count }, (_, index) => {
    const code = `Q-${(index % 40) + 1}`
    return `${code}\t2026-02-20\tconfirmed\tRoom ${Math.floor((index % 200) / 40) + 1}\tstay\t2026-02-10\t2026-02-18`
  })
  return ['code\tonset\tclassification\tplace\tkind\tfrom\tto', ...rows, ...more].join('\n')
}

/** Pastes as the keyboard does; gives back how long it took until the page answered again, by a clock outside the page. */
async function paste(page: Page, text: string): Promise<number> {
  const area = page.getByRole('dialog').getByLabel('Rows')
  await area.waitFor()
  const before = performance.now()
  await area.evaluate((element, pasted) => {
    const data = new DataTransfer()
    data.setData('text/plain', pasted)
    element.dispatchEvent(new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }))
  }, text)
  await page.evaluate(() => document.title)
  return performance.now() - before
}
