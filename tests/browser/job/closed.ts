import { type Browser, expect, type Locator, type Page } from '@playwright/test'
import { button, dialogOf, field } from './person.ts'

/** A browser of its own, which takes the certificate the server made for itself. */
export async function device(browser: Browser, viewport: { width: number; height: number }): Promise<Page> {
  const context = await browser.newContext({ viewport, ignoreHTTPSErrors: true })
  return context.newPage()
}

export async function join(page: Page, { invitation, name }: { invitation: string; name: string }): Promise<void> {
  await page.goto(invitation)
  await page.getByLabel('Name of this device').fill(name)
  await button(page, 'Join').click()
}

/** A lead, at the Devices screen, makes an invitation; gives back its link. */
export async function newInvitation(desk: Page, role: 'sampler' | 'reader' | 'lead' = 'sampler'): Promise<string> {
  await button(desk, 'Invite a device').click()
  const dialog = dialogOf(desk, 'Invite a device')
  await dialog.getByRole('radio', { name: new RegExp(`^${role}:`) }).check()
  await button(dialog, 'Make the invitation').click()
  return desk.locator('.invitation-link').innerText()
}

/** A phone has the line of the top bar below it: the other one is hidden. */
export const shown = (page: Page, words: RegExp): Locator => page.getByText(words).filter({ visible: true }).first()

/** Writes a note on the brief of an investigation that is open there or named by its address. */
export async function note(page: Page, { brief, text }: { brief: string; text: string }): Promise<void> {
  await page.goto(brief)
  await button(page, 'Write a note or question').click()
  const dialog = dialogOf(page, 'Write a note or question')
  await field(dialog, 'Text').fill(text)
  await button(dialog, 'Record').click()
  const asked = dialogOf(page, 'Who is writing?')
  await asked.or(page.getByText(text).last()).first().waitFor()
  if (await asked.isVisible()) {
    await asked.getByRole('textbox').fill('S. Sampler')
    await button(asked, 'Keep this name').click()
  }
  await expect(dialog).toBeHidden()
}
