import { findTool } from './system-tools.ts'

const FLAGS = [
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
]

/** How Playwright starts the system's Chromium: no downloads, no background traffic; no sandbox when root. */
export function chromiumLaunchOptions(): { executablePath: string; args: string[] } {
  const executablePath = findTool('chromium')
  if (executablePath === undefined) {
    throw new Error('Cannot start a browser because Chromium is missing. Install with: apt-get install chromium')
  }
  return { executablePath, args: process.getuid?.() === 0 ? ['--no-sandbox', ...FLAGS] : [...FLAGS] }
}
