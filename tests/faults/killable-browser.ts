import { type ChildProcess, spawn } from 'node:child_process'
import { createInterface } from 'node:readline'
import { type Browser, chromium, type Page } from '@playwright/test'
import { chromiumLaunchOptions } from '../../scripts/phases/chromium.ts'

const START_MS = 60_000

/** Chromium over a profile that outlives it, with everything it started in one group of processes. */
export interface KillableBrowser {
  readonly page: Page
  /** all its processes at once, with no chance to write anything more (SIGKILL) */
  readonly kill: () => Promise<void>
}

export async function openBrowser(profile: string): Promise<KillableBrowser> {
  const { executablePath, args } = chromiumLaunchOptions()
  const own = [
    `--user-data-dir=${profile}`,
    '--remote-debugging-port=0',
    '--headless=new',
    '--no-default-browser-check',
  ]
  const child = spawn(executablePath, [...args, ...own, 'about:blank'], {
    stdio: ['ignore', 'ignore', 'pipe'],
    detached: true,
  })
  const orphaned = (): void => killGroup(child)
  process.once('exit', orphaned)
  child.once('close', () => process.off('exit', orphaned))
  let browser: Browser | undefined
  const kill = async (): Promise<void> => {
    const gone = child.exitCode !== null || child.signalCode !== null
    const closed = new Promise((resolve) => child.once('exit', resolve))
    killGroup(child)
    if (!gone) await closed
    await browser?.close().catch(() => undefined)
  }
  try {
    browser = await chromium.connectOverCDP(await addressOf(child))
    const context = browser.contexts()[0]
    const page = context?.pages()[0] ?? (await context?.newPage())
    if (page === undefined) throw new Error('the browser opened no page')
    return { page, kill }
  } catch (error) {
    await kill()
    throw error
  }
}

function addressOf(child: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    const late = setTimeout(() => reject(new Error(`the browser did not start in ${START_MS / 1000} s`)), START_MS)
    const lines = createInterface({ input: child.stderr ?? process.stdin })
    lines.on('line', (line) => {
      const found = /DevTools listening on (ws:\S+)/.exec(line)?.[1]
      if (found === undefined) return
      clearTimeout(late)
      resolve(found)
    })
    child.once('error', reject)
    child.once('exit', (code) => {
      clearTimeout(late)
      reject(new Error(`the browser ended with ${code}`))
    })
  })
}

function killGroup({ pid }: ChildProcess): void {
  try {
    if (pid !== undefined) process.kill(-pid, 'SIGKILL')
  } catch {
    // all of it is gone
  }
}
