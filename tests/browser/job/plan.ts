import { expect, type Page } from '@playwright/test'
import { button, dialogOf, field, go, untilSynced } from './person.ts'
import { download, pdfText } from './papers.ts'

const SAMPLES = 9

/** A short budget by keyboard, what it leaves out, adoption as R1; the labels in walking order are given back. */
export async function adoptPlan(page: Page): Promise<readonly string[]> {
  const main = await go(page, 'Plan')
  await setSlider(page, { name: 'Teams', to: 1 })
  await setSlider(page, { name: 'Samples the laboratory takes', to: SAMPLES })
  await expect(page.getByRole('heading', { level: 1 })).toContainText(`${SAMPLES} samples at`)
  await expect(main.getByText('The draft is kept on this device until it is adopted.')).toBeVisible()
  await page.reload()
  await expect(page.getByRole('slider', { name: 'Samples the laboratory takes' })).toHaveValue(String(SAMPLES))
  await expect(page.getByRole('heading', { level: 1 })).toContainText(`${SAMPLES} samples at`)
  await main.getByRole('tab', { name: /^Left out/ }).click()
  await expect(main.getByRole('tabpanel').getByRole('listitem').first()).toBeVisible()
  await expect(main.getByRole('region', { name: 'What this plan can miss' })).toContainText('could still hide')
  await button(main, 'Adopt as round R1').click()
  const dialog = dialogOf(page, 'Adopt as round R1')
  await field(dialog, 'Planned for').fill('2026-03-04')
  await field(dialog, 'Name of team 1').fill('Team Tide')
  await button(dialog, 'Adopt and number the labels').click()
  await expect(page.getByRole('heading', { level: 1 })).toContainText(`Round R1: ${SAMPLES} samples at`)
  const text = await main.getByRole('list', { name: 'Stops in walking order' }).innerText()
  const labels = [...new Set(text.match(/\b[A-Z]{3}-\d{4}-\d\d\b/g) ?? [])]
  expect(labels).toHaveLength(SAMPLES)
  return labels
}

async function setSlider(page: Page, { name, to }: { name: string; to: number }): Promise<void> {
  const slider = page.getByRole('slider', { name })
  await slider.press('Home')
  const lowest = Number(await slider.getAttribute('min'))
  for (let at = lowest; at < to; at += 1) await slider.press('ArrowRight')
  await expect(slider).toHaveValue(String(to))
}

/** Labels and run sheets are PDFs that name every label and the team. */
export async function takePapers(page: Page, labels: readonly string[]): Promise<void> {
  const main = page.getByRole('main')
  await untilSynced(page)
  const printed = await pdfText((await download(page, button(main, 'Labels of round R1, PDF'))).path)
  for (const label of labels) expect(printed).toContain(label)
  const sheets = await pdfText((await download(page, button(main, 'Run sheets of round R1, PDF'))).path)
  for (const label of labels) expect(sheets).toContain(label)
  expect(sheets).toContain('Team Tide')
  expect(sheets).toContain('Quay House')
}
