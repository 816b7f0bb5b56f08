import { expect, type Page } from '@playwright/test'
import { linksOnServer } from './entries.ts'
import { button, dialogOf, field, go } from './person.ts'

const REASON = 'Read again from the photo of the display.'

/** A temperature is amended through the form, with the reason; the first version stays and both are shown. */
export async function amendTemperature(page: Page): Promise<void> {
  const main = await go(page, 'Record')
  await field(main, 'Words').fill('Transport temperature logged')
  const rows = main.getByRole('row').filter({ hasText: 'Transport temperature logged' })
  await expect(rows).toHaveCount(1)
  await rows.getByRole('button').click()
  await button(page, 'Amend').click()
  const dialog = dialogOf(page, 'Amend: Transport temperature logged')
  await expect(button(dialog, 'Record the amendment')).toBeDisabled()
  await field(dialog, 'Reason').fill(REASON)
  await field(dialog, 'Temperature').fill('6,9')
  await button(dialog, 'Record the amendment').click()
  await expect(dialog).toBeHidden()
  await expect(rows).toHaveCount(2)
  await expect(page.getByText(REASON).first()).toBeVisible()
  const versions = page.getByRole('table', { name: 'What differs between the versions' })
  await expect(versions.getByRole('row').filter({ hasText: 'Temperature' })).toHaveText(/6\.4.*6\.9/)
}

/** The chain on this device is walked from the first entry to the last and ends in the server's head. */
export async function checkChain(page: Page): Promise<void> {
  const head = (await linksOnServer(page)).at(-1)
  const main = page.getByRole('main')
  await button(main, 'Check the chain').click()
  const verdict = main.getByRole('status').filter({ hasText: 'Sound:' })
  await expect(verdict).toContainText(`Sound: ${head?.sequence ?? 0} entries, each tied to the one before it.`)
  await expect(verdict).toContainText(head?.hash.match(/.{4}/g)?.join(' ') ?? 'no head')
}
