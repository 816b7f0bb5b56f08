import { execFile } from 'node:child_process'
import { readFile } from 'node:fs/promises'
import { promisify } from 'node:util'
import { expect, type Locator, type Page } from '@playwright/test'

/** Presses what saves a file and gives back its name and where it lies. */
export async function download(page: Page, act: Locator): Promise<{ readonly name: string; readonly path: string }> {
  const [saved] = await Promise.all([page.waitForEvent('download'), act.click()])
  return { name: saved.suggestedFilename(), path: await saved.path() }
}

/** The text of a PDF as Poppler reads it, lines joined, so that a sentence is found however it was broken. */
export async function pdfText(path: string): Promise<string> {
  expect((await readFile(path)).subarray(0, 5).toString('latin1')).toBe('%PDF-')
  const { stdout } = await promisify(execFile)('pdftotext', ['-enc', 'UTF-8', path, '-'], { maxBuffer: 50_000_000 })
  return stdout.replaceAll(/\s+/g, ' ')
}
