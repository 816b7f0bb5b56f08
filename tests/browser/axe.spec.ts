import { AxeBuilder } from '@axe-core/playwright'
import { STEPS } from '@rillmark/casebook/entry/steps.ts'
import { expect, type Page, test } from '@playwright/test'
import { openExample, watchPage } from './job/page-watch.ts'

// Every screen of the worked example, held against the rules axe-core has for WCAG 2.2 A and AA (https://www.w3.org/TR/WCAG22/), and
// against its reflow rule 1.4.10: nothing scrolls sideways on a phone.

const SIZES = [
  { name: 'desk', width: 1440, height: 900 },
  { name: 'phone', width: 390, height: 844 },
] as const
const THEMES = ['light', 'dark'] as const
const SCREENS = [...STEPS, 'calculators', 'calculators/shock-dose']
const GRAVE = new Set(['serious', 'critical'])

for (const { name, ...viewport } of SIZES)
  for (const colorScheme of THEMES)
    test.describe(`${name}, ${colorScheme}`, () => {
      test.use({ viewport, colorScheme, hasTouch: name === 'phone', contextOptions: { reducedMotion: 'reduce' } })

      test('every screen can be read by everyone and fits its window', async ({ page }) => {
        const told = watchPage(page)
        await page.goto('/')
        await expect(page.getByRole('heading', { level: 1 })).toBeVisible()
        await inspect(page, 'start')
        const example = await openExample(page)
        for (const screen of SCREENS) {
          await page.goto(`${example}/${screen}`)
          await inspect(page, screen)
        }
        expect(told()).toEqual([])
      })
    })

/** Says every grave violation of one screen, and whether it is wider than its window, without stopping at the first. */
async function inspect(page: Page, screen: string): Promise<void> {
  await test.step(screen, async () => {
    await settled(page)
    const { violations } = await new AxeBuilder({ page }).analyze()
    const grave = violations
      .filter(({ impact }) => GRAVE.has(impact ?? ''))
      .map(({ id, nodes }) => `${id}: ${nodes.map(({ target }) => target.join(' ')).join(' | ')}`)
    expect.soft(grave, screen).toEqual([])
    const excessPx = await page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    )
    expect.soft(excessPx, `${screen}, wider than its window by px`).toBeLessThanOrEqual(0)
  })
}

/** A screen has its head, its fonts and nothing under way. */
async function settled(page: Page): Promise<void> {
  await expect(page.getByRole('main').getByRole('heading').first()).toBeVisible()
  await expect(page.locator('[aria-busy="true"], [role="progressbar"]:not([aria-valuenow])')).toHaveCount(0)
  await page.evaluate(async () => {
    await document.fonts.ready
  })
}
