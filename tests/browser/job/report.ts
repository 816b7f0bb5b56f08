import { expect, type Page } from '@playwright/test'
import { entriesOf, linksOnServer } from './entries.ts'
import { CONCLUSION } from './findings.ts'
import { OVERRIDE } from './follow-up.ts'
import { download, pdfText } from './papers.ts'
import { button, choice, field, go } from './person.ts'

const SUMMARY = 'The outlets that grew were disinfected and proved; the house closes before follow-up could end.'
const HASH_SHOWN = 12

/** The report in one's own words, and as PDF: it says what the record says, and names the head it speaks of. */
export async function writeReport(page: Page): Promise<void> {
  const main = await go(page, 'Report')
  await field(main.or(page.getByRole('complementary')), 'Summary').fill(SUMMARY)
  await button(page, 'Record the summary').click()
  await expect(button(page, 'Record the summary')).toBeHidden()
  const head = (await linksOnServer(page)).at(-1)
  const codes = (await entriesOf(page, 'case.recorded')).map(({ body }) => body.code)
  const [label = ''] = (await entriesOf(page, 'sample.collected')).map(({ body }) => body.label)
  const whole = await savedDraft(page)
  for (const words of [...codes, label, SUMMARY, CONCLUSION, OVERRIDE, head?.hash.slice(0, HASH_SHOWN) ?? 'no head'])
    expect(whole).toContain(words)
}

/** The redacted report says the same of the water and names no case. */
export async function redactReport(page: Page): Promise<void> {
  const codes = (await entriesOf(page, 'case.recorded')).map(({ body }) => body.code)
  await choice(page.getByRole('main'), { of: 'Variant', name: 'Redacted' }).check()
  const redacted = await savedDraft(page)
  expect(redacted).toContain(CONCLUSION)
  expect(codes.length).toBeGreaterThan(0)
  for (const code of codes) expect(redacted).not.toContain(code)
}

async function savedDraft(page: Page): Promise<string> {
  const { path } = await download(page, button(page, 'Save a draft (PDF)'))
  return pdfText(path)
}
