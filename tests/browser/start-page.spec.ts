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
