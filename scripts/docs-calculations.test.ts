import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { calculationsPage, calculationsPagePath } from './docs-calculations.ts'

test('docs/calculations.md is what the descriptors say; run node scripts/docs-calculations.ts', () => {
  expect(readFileSync(calculationsPagePath, 'utf8')).toBe(calculationsPage())
})
