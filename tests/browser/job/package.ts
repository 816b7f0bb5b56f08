import { execFile } from 'node:child_process'
import { join } from 'node:path'
import { promisify } from 'node:util'
import { expect, type Page, test } from '@playwright/test'
import { linksOnServer } from './entries.ts'
import { ROOT } from '../../../scripts/phases/command.ts'

/** The record leaves the house as an open package, by the command and from the data folder, and the package is sound up to the server's head. */
export async function exportAndVerify(page: Page, investigation: string): Promise<void> {
  const dataFolder = process.env['RILLMARK_DATA'] ?? ''
  expect(dataFolder, 'RILLMARK_DATA, the data folder of the app under test').not.toBe('')
  const last = (await linksOnServer(page)).at(-1)
  const head = `${last?.sequence ?? 0}:${last?.hash ?? ''}`
  const file = test.info().outputPath('package.zip')
  const exported = await rillmark('export', investigation, '-o', file, '--data', dataFolder)
  expect(exported).toContain(`Head ${head}`)
  const verdict = await rillmark('verify', file, '--head', head)
  expect(verdict).toMatch(/^Sound package\n/)
  expect(verdict).toContain(head)
  expect(verdict).toContain(`${last?.sequence ?? 0} of ${last?.sequence ?? 0} entries`)
}

/** What the command says. */
export async function rillmark(...args: readonly string[]): Promise<string> {
  const { stdout } = await promisify(execFile)(process.execPath, [join(ROOT, 'packages/cli/bin/rillmark.js'), ...args])
  return stdout
}
