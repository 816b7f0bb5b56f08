import { expect, type Locator, type Page } from '@playwright/test'
import { button, field } from './person.ts'

/** The title of the step a stop is at. */
export const stepOf = (visit: Locator): Locator => visit.getByRole('heading', { level: 2 })

const MOST_STEPS = 40

/** Settles steps one after another, each in the quickest way the screen offers, until one has that title or the stop is finished. */
export async function settleStop(page: Page, { visit, until }: { visit: Locator; until?: string }): Promise<void> {
  for (let step = 0; step < MOST_STEPS; step += 1) {
    const title = await stepOf(visit).innerText()
    if (title === until) return
    if (FINISHED.has(title)) {
      expect(until, 'a step of this stop').toBeUndefined()
      return
    }
    await settleStep(page, visit)
  }
  throw new Error(`No step "${until ?? 'finished'}" within ${MOST_STEPS} steps`)
}

const FINISHED = new Set(['Sampled', 'Partly sampled', 'Not possible'])

/** Presses the act of a step and waits until the stop has gone on. */
export async function press(visit: Locator, act: Locator): Promise<void> {
  const settled = visit.getByRole('img', { name: /steps settled$/ })
  const before = (await settled.getAttribute('aria-label')) ?? ''
  await act.click()
  await expect(settled).not.toHaveAttribute('aria-label', before)
}

/** One step, and the wait until the record has it. */
async function settleStep(page: Page, visit: Locator): Promise<void> {
  const act = visit.locator('.field-foot').getByRole('button').first()
  const words = await act.innerText()
  if (words.startsWith('Finish')) {
    await act.click()
    await expect(visit.getByText('Stop finished')).toBeVisible()
    return
  }
  await ready(page, { visit, words })
  await press(visit, act)
}

/** Fills in what a step needs before its one big button can be pressed. */
async function ready(page: Page, { visit, words }: { visit: Locator; words: string }): Promise<void> {
  if (words === 'Type the label') {
    const expected = (await visit.getByText('The record expects').locator('..').locator('b').innerText()).trim()
    await field(visit, 'What the label in your hand says').fill(expected)
  } else if (words === 'Open the tap, start the clock') {
    const cold = /cold|supply/i.test(await stepOf(visit).innerText())
    await field(visit, 'Without the clock: what it shows').fill(cold ? '11' : '52.4')
  } else if (words === 'Start the clock') {
    await button(visit, words).click()
    await page.clock.fastForward('01:30')
  } else if (words === 'Keep the reading') {
    await field(visit, 'Reading').fill((await stepOf(visit).innerText()) === 'pH' ? '7.6' : '0.8')
  }
}
