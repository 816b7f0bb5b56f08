import { expect, type Page } from '@playwright/test'

/** Listens to what a person should never meet: errors of scripts and the console, and requests to another host. Gives back what was heard. */
export function watchPage(page: Page): () => readonly string[] {
  const told: string[] = []
  page.on('pageerror', (error) => told.push(`script: ${error.message}`))
  page.on('console', (message) => {
    if (message.type() === 'error') told.push(`console: ${message.text()} (${message.location().url})`)
  })
  page.on('request', (request) => {
    const { protocol, host } = new URL(request.url())
    if (protocol.startsWith('http') && host !== new URL(process.env['RILLMARK_URL'] ?? '').host)
      told.push(`request to another host: ${request.url()}`)
  })
  return () => told
}

/** Opens the worked example from the start page; gives back the address of the investigation. */
export async function openExample(page: Page): Promise<string> {
  await page.goto('/')
  await page.getByRole('button', { name: 'Open the worked example' }).click()
  await expect(page).toHaveURL(/\/i\/[^/]+\/brief$/, { timeout: 30_000 })
  return new URL(page.url()).pathname.replace(/\/brief$/, '')
}
