import { expect, test } from '@playwright/test'

test('the start page opens, names itself and reports no error', async ({ page }) => {
  const errors: string[] = []
  page.on('pageerror', (error) => errors.push(error.message))
  page.on('console', (message) => {
    if (message.type() === 'error') errors.push(message.text())
  })
  await page.goto('/')
  await expect(page).toHaveTitle(/Rillmark/)
  await expect(page.getByRole('main')).toBeVisible()
  await expect(page.getByRole('button', { name: /worked example/i })).toBeVisible()
  expect(errors).toEqual([])
})

test('starting an investigation with too little names all that is missing at once', async ({ page }) => {
  await page.goto('/')
  await page.getByRole('button', { name: 'Start an investigation' }).click()
  const dialog = page.getByRole('dialog', { name: 'Start an investigation' })
  await dialog.getByRole('button', { name: 'Start', exact: true }).click()
  const needed = dialog.getByRole('alert', { name: 'Still needed' }).getByRole('listitem')
  await expect(needed).toHaveCount(4)
  await expect(needed).toContainText(['Building or place', 'Setting', 'Why you were called', 'Who is writing'])
})
