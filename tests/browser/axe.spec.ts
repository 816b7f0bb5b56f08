import { STEPS } from '@rillmark/casebook/entry/steps.ts'
import { expect, type Page, test } from '@playwright/test'
import { inspect } from './job/inspect.ts'
import { openExample, watchPage } from './job/page-watch.ts'
import { button } from './job/person.ts'

// Every screen of the worked example and the main dialogs of each step, held against the rules axe-core has for WCAG 2.2 A and AA
// (https://www.w3.org/TR/WCAG22/), and against its reflow rule 1.4.10: nothing scrolls sideways on a phone.

const SIZES = [
  { name: 'desk', width: 1440, height: 900 },
  { name: 'phone', width: 390, height: 844 },
] as const
const THEMES = ['light', 'dark'] as const
/** The steps from Brief to Record; the list of calculators and one of their pages. */
const SCREENS = [...STEPS, 'calculators', 'calculators/shock-dose']

for (const { name, ...viewport } of SIZES)
  for (const colorScheme of THEMES)
    test.describe(`${name}, ${colorScheme}`, () => {
      test.use({ viewport, colorScheme, hasTouch: name === 'phone', contextOptions: { reducedMotion: 'reduce' } })

      test('every screen can be read by everyone and fits its window', async ({ page }) => {
        const told = watchPage(page)
        await page.goto('/')
        await expect(page.getByRole('heading', { level: 1 })).toBeVisible()
        await inspect(page, { name: 'start' })
        const example = await openExample(page)
        for (const screen of SCREENS) {
          await page.goto(`${example}/${screen}`)
          await expect(page.getByRole('main').getByRole('heading').first()).toBeVisible()
          await inspect(page, { name: screen })
        }
        expect(told()).toEqual([])
      })
    })

/** Where each dialog is opened: the screen, with what is selected there, and the buttons that open one each. */
const DIALOGS: readonly { readonly screen: string; readonly opened: readonly string[] }[] = [
  { screen: 'brief', opened: ['Write a note or question', 'Preferences'] },
  {
    screen: 'cases?show=MH-01',
    opened: ['Record a case', 'Paste from a spreadsheet', 'Add a place', 'Amend the case'],
  },
  { screen: 'building', opened: ['Add a part'] },
  {
    screen: 'building?show=heater-1',
    opened: ['Add a pipe from here', 'Add a part beside it', 'Take it out'],
  },
  { screen: 'plan', opened: ['Add a point', 'Change date or teams'] },
  { screen: 'fieldwork', opened: ['Add a stop', 'Register an instrument'] },
  { screen: 'custody', opened: ['Open a consignment'] },
  {
    screen: 'results?show=MRH-0001-57',
    opened: ['Type a result', 'Record an isolate', 'Amend this result', 'Withdraw it'],
  },
  { screen: 'findings', opened: ['Choose others', 'Write a conclusion'] },
  { screen: 'control', opened: ['Complete this measure'] },
  { screen: 'report', opened: ['Issue the whole report'] },
  { screen: 'record?show=12', opened: ['Amend', 'Withdraw'] },
]

const LEAVE = /^(Cancel|Close|Keep it|Leave it|Not now|Done)$/

for (const [{ name, ...viewport }, colorScheme] of [
  [SIZES[0], 'light'],
  [SIZES[1], 'dark'],
] as const)
  test.describe(`dialogs, ${name}, ${colorScheme}`, () => {
    test.use({ viewport, colorScheme, hasTouch: name === 'phone', contextOptions: { reducedMotion: 'reduce' } })

    test('the main dialogs of each step can be read by everyone and fit their window', async ({ page }) => {
      const told = watchPage(page)
      await page.goto('/')
      await button(page, 'Start an investigation').click()
      await inspectDialog(page, 'start')
      const example = await openExample(page)
      for (const { screen, opened } of DIALOGS) {
        await page.goto(`${example}/${screen}`)
        for (const words of opened) {
          await button(page, words).first().click()
          await inspectDialog(page, `${screen}: ${words}`)
        }
      }
      expect(told()).toEqual([])
    })
  })

async function inspectDialog(page: Page, name: string): Promise<void> {
  const dialog = page.getByRole('dialog')
  await expect(dialog, name).toBeVisible()
  await inspect(page, { name, within: '[role="dialog"], [role="alertdialog"]' })
  await button(dialog, LEAVE).first().click()
  await expect(dialog, name).toBeHidden()
}
