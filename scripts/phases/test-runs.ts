import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { type Count, runCommand } from './command.ts'
import { countPlaywright, countVitest } from './json-report.ts'
import { ensureTools } from './system-tools.ts'

/** Unit tests, checks and house rules: everything vitest finds. A missing program is one failure of its own. */
export async function runVitest(): Promise<Count> {
  const missing = await ensureTools(['pdftotext', 'pdftoppm'])
  const count = await withReport(async (reportPath) => {
    const args = ['run', '--reporter=default', '--reporter=json', `--outputFile.json=${reportPath}`]
    return countVitest({ reportPath, exitCode: await runCommand({ run: 'vitest', args }) })
  })
  return { ...count, failed: count.failed + missing.length }
}

/** The browser tests, in the system's Chromium, against an app of their own. */
export async function runBrowser(): Promise<Count> {
  const missing = await ensureTools(['chromium', 'pdftotext', 'pdftoppm'])
  if (missing.includes('chromium')) return { passed: 0, failed: missing.length }
  const count = await withReport(async (reportPath) => {
    const args = ['test', '--reporter=list,json']
    const env = { PLAYWRIGHT_JSON_OUTPUT_NAME: reportPath, PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD: '1' }
    return countPlaywright({ reportPath, exitCode: await runCommand({ run: 'playwright', args, env }) })
  })
  return { ...count, failed: count.failed + missing.length }
}

/** How often in `npm test`, so that it ends within the hour; `npm run faults` does all of it. */
const FEWER_FAULTS = {
  RILLMARK_SERVER_KILLS: '60',
  RILLMARK_BROWSER_KILLS: '20',
  RILLMARK_CUTS: '60',
  RILLMARK_MODEL_RUNS: '20',
}

/** The real server and a real browser killed and cut off, again and again; needs the built app. */
export async function runFaults(): Promise<Count> {
  const missing = await ensureTools(['chromium'])
  const count = await withReport(async (reportPath) => {
    const config = ['--config', 'tests/faults/vitest.config.ts']
    const env = { ...FEWER_FAULTS, ...asked(Object.keys(FEWER_FAULTS)) }
    const args = ['run', ...config, '--reporter=default', '--reporter=json', `--outputFile.json=${reportPath}`]
    return countVitest({ reportPath, exitCode: await runCommand({ run: 'vitest', args, env }) })
  })
  return { ...count, failed: count.failed + missing.length }
}

/** What the caller set of these. */
function asked(names: readonly string[]): Record<string, string> {
  return Object.fromEntries(
    names.flatMap((name) => (process.env[name] === undefined ? [] : [[name, process.env[name]]])),
  )
}

async function withReport(run: (reportPath: string) => Promise<Count>): Promise<Count> {
  const folder = mkdtempSync(join(tmpdir(), 'rillmark-report-'))
  try {
    return await run(join(folder, 'report.json'))
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}
