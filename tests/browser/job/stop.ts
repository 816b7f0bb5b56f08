import { expect, type Locator, type Page } from '@playwright/test'
import { field } from './person.ts'

/** The title of the step a stop is at. */
export const stepOf = (visit: Locator): Locator => visit.getByRole('heading', { level: 2 })

/** The one big act of the step. */
export const actOf = (visit: Locator): Locator => visit.locator('.field-foot').getByRole('button').first()

const FINISHED = new Set(['Sampled', 'Partly sampled', 'Not possible'])

export const isFinished = async (visit: Locator): Promise<boolean> => FINISHED.has(await stepOf(visit).innerText())

const MOST_STEPS = 40

/** Settles steps one after another, each in the quickest way the screen offers, until one has that title or the stop is finished. */
export async function settleStop(page: Page, { visit, until }: { visit: Locator; until?: string }): Promise<void> {
  for (let step = 0; step < MOST_STEPS; step += 1) {
    if ((await stepOf(visit).innerText()) === until) return
    if (await isFinished(visit)) {
      expect(until, 'a step of this stop').toBeUndefined()
      return
    }
    const wanted = await wantedBy(visit)
    await wanted?.field.fill(wanted.text)
    await settleStep(page, { visit, press: (act) => act.click() })
  }
  throw new Error(`No step "${until ?? 'finished'}" within ${MOST_STEPS} steps`)
}

/** Does what settles a step and waits until the stop has gone on. */
async function untilGoneOn(visit: Locator, settle: () => Promise<void>): Promise<void> {
  const settled = visit.getByRole('img', { name: /steps settled$/ })
  const before = (await settled.getAttribute('aria-label')) ?? ''
  await settle()
  await expect(settled).not.toHaveAttribute('aria-label', before)
}

/** Presses the act of a step and waits until the stop has gone on. */
export const press = (visit: Locator, act: Locator): Promise<void> => untilGoneOn(visit, () => act.click())

/** The act of one step, and the wait until the record has it. A running tap runs for a minute and a half of the page's clock. */
export async function settleStep(
  page: Page,
  of: { visit: Locator; press: (act: Locator) => Promise<void> },
): Promise<void> {
  const { visit } = of
  const act = actOf(visit)
  const words = await act.innerText()
  if (words.startsWith('Finish')) {
    await of.press(act)
    await expect(visit.getByText('Stop finished')).toBeVisible()
    return
  }
  if (words === 'Start the clock') {
    await of.press(act)
    await page.clock.fastForward('01:30')
  }
  await untilGoneOn(visit, () => of.press(act))
}

/** What a step needs typed before its act can be pressed. */
export async function wantedBy(visit: Locator): Promise<{ field: Locator; text: string } | undefined> {
  const words = await actOf(visit).innerText()
  const title = await stepOf(visit).innerText()
  if (words === 'Scan the label') {
    const text = (await visit.getByText('The record expects').locator('..').locator('b').innerText()).trim()
    return { field: field(visit, 'What the label in your hand says'), text }
  }
  if (words === 'Open the tap, start the clock')
    return { field: field(visit, 'Without the clock: what it shows'), text: /cold/i.test(title) ? '11' : '52.4' }
  if (words === 'Keep the reading')
    return { field: field(visit, 'Reading'), text: title.startsWith('pH') ? '7.6' : '0.8' }
  return undefined
}
