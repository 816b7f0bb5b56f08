import type { Page } from '@playwright/test'
import type { Chance } from './seed.ts'
import { testPhoto } from './test-photo.ts'

const PHOTO_BYTES = { least: 2000, most: 400_000 }

const A_MOMENT_MS = 2000

/** What a person at the stop saw kept: each text stands for one entry, each hash for one photo. */
export interface Shown {
  readonly notes: string[]
  readonly photos: { readonly shows: string; readonly sha256: string }[]
}

/** Opens the stop as a person does, with what is seldom wanted in view: a note and a photo. */
export async function openStop(page: Page, address: string): Promise<void> {
  await page.goto(address)
  const stop = page.getByRole('listitem').filter({ hasText: '101 basin tap' }).getByRole('button').first()
  const visit = page.locator('section.field-visit')
  // a stop that was open when the browser was killed opens again by itself, a moment after the list was there
  for (;;) {
    await stop.or(visit).first().waitFor()
    if (await visit.isVisible()) break
    await stop.click({ timeout: A_MOMENT_MS }).catch(() => undefined)
  }
  const start = visit.getByRole('button', { name: 'Start this stop', exact: true })
  const more = visit.getByRole('button', { name: 'More', exact: true })
  await start.or(more).first().waitFor()
  if (await start.isVisible()) {
    await start.click()
    const name = page.getByRole('dialog', { name: 'Who is writing?' }).getByRole('textbox')
    await name.or(more).first().waitFor()
    if (await name.isVisible()) {
      await name.fill('S. Sampler')
      await name.press('Enter')
    }
  }
  await more.click()
  await page.getByRole('button', { name: 'Keep the note', exact: true }).waitFor()
}

/** Writes notes and takes photos until it is stopped by what becomes of the page; what the screen says is kept is noted in `shown`. */
export async function captureUntilKilled(
  page: Page,
  { life, shown, chance, tried }: { life: string; shown: Shown; chance: Chance; tried: string[] },
): Promise<void> {
  for (let n = 1; ; n += 1) {
    const text = `${life}.${n}`
    tried.push(text)
    if (chance.oneIn(4)) await takePhoto(page, { text, shown, chance })
    else await writeNote(page, { text, shown })
  }
}

export async function writeNote(page: Page, { text, shown }: { text: string; shown: Shown }): Promise<void> {
  const area = page.getByRole('textbox', { name: 'Anything else worth keeping about this stop' })
  await area.fill(text)
  await page.getByRole('button', { name: 'Keep the note', exact: true }).click()
  await page.waitForFunction((field) => (field as HTMLTextAreaElement | null)?.value === '', await area.elementHandle())
  shown.notes.push(text)
}

export async function takePhoto(
  page: Page,
  { text, shown, chance }: { text: string; shown: Shown; chance: Chance },
): Promise<void> {
  const { content, sha256 } = testPhoto(chance.between(PHOTO_BYTES.least, PHOTO_BYTES.most), chance)
  const file = { name: 'photo.jpg', mimeType: 'image/jpeg', buffer: Buffer.from(content) }
  await page.locator('input[type=file][accept*="image/jpeg"]').setInputFiles(file)
  await page.getByRole('textbox', { name: /What it shows/ }).fill(text)
  await page.getByRole('button', { name: 'Keep the photo', exact: true }).click()
  await page.locator('.field-photos').getByText(text, { exact: true }).waitFor()
  shown.photos.push({ shows: text, sha256 })
}
