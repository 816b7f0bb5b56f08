import { expect, type Locator, type Page } from '@playwright/test'

/** Goes to a step of the job by its name at the left. */
export async function go(page: Page, step: string): Promise<Locator> {
  const link = page.getByRole('navigation', { name: 'The job' }).getByRole('link', { name: new RegExp(`^${step}\\b`) })
  await link.click()
  await expect(link).toHaveAttribute('aria-current', 'page')
  return page.getByRole('main')
}

/** The dialog that is open, by its title. */
export const dialogOf = (page: Page, title: string | RegExp): Locator => page.getByRole('dialog', { name: title })

/** A field to type into or to choose from, by the name a screen reader says. */
export const field = (within: Locator, name: string): Locator =>
  within.getByRole('textbox', { name, exact: true }).or(within.getByRole('combobox', { name, exact: true }))

export const button = (within: Locator | Page, name: string | RegExp): Locator =>
  within.getByRole('button', { name, ...(typeof name === 'string' ? { exact: true } : {}) })

/** One of several choices in view, in the group with that name. */
export const choice = (within: Locator, { of, name }: { of: string; name: string }): Locator =>
  within.getByRole('group', { name: of }).getByLabel(name, { exact: true })

/** Everything on this device has reached the server. */
export async function untilSynced(page: Page): Promise<void> {
  await expect(
    page
      .getByRole('status')
      .filter({ hasText: /^All \d+ entries are on the server$/ })
      .first(),
  ).toBeVisible()
}
