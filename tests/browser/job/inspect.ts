import { AxeBuilder } from '@axe-core/playwright'
import { expect, type Page, test } from '@playwright/test'

const GRAVE = new Set(['serious', 'critical'])

/** Says every grave violation of what the page shows, and whether it is wider than its window, without stopping at the first. */
export async function inspect(page: Page, { name, within }: { name: string; within?: string }): Promise<void> {
  await test.step(name, async () => {
    await settled(page)
    const builder = new AxeBuilder({ page })
    const { violations } = await (within === undefined ? builder : builder.include(within)).analyze()
    const grave = violations
      .filter(({ impact }) => GRAVE.has(impact ?? ''))
      .map(({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target.join(' ')).join(' | ')}`)
    expect.soft(grave, name).toEqual([])
    const excessPx = await page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    )
    expect.soft(excessPx, `${name}, wider than its window by px`).toBeLessThanOrEqual(0)
  })
}

/** A screen has its head, its fonts and nothing under way. */
async function settled(page: Page): Promise<void> {
  await expect(page.locator('main').locator('h1, h2, h3').first()).toBeAttached()
  await expect(page.locator('[aria-busy="true"], [role="progressbar"]:not([aria-valuenow])')).toHaveCount(0)
  await page.evaluate(async () => {
    await document.fonts.ready
  })
}
