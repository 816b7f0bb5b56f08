import { spawnSync } from 'node:child_process'
import { accessSync, constants, existsSync } from 'node:fs'
import { delimiter, join } from 'node:path'
import { runCommand } from './command.ts'

/** A program the tests need from the system, under any of its names, and the Debian package that brings it. */
type Tool = { readonly names: readonly string[]; readonly aptPackages: readonly string[] }

const TOOLS = {
  chromium: {
    names: ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'chrome'],
    aptPackages: ['chromium', 'fonts-liberation'],
  },
  pdftotext: { names: ['pdftotext'], aptPackages: ['poppler-utils'] },
  pdftoppm: { names: ['pdftoppm'], aptPackages: ['poppler-utils'] },
} as const satisfies Record<string, Tool>

export type ToolName = keyof typeof TOOLS

const MAC_CHROME = '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome'

/** The path of a program the tests need; undefined when it is not on this machine. */
export function findTool(tool: ToolName): string | undefined {
  const folders = [...(process.env['PATH'] ?? '').split(delimiter), '/usr/bin', '/usr/local/bin', '/snap/bin']
  const found = folders.flatMap((folder) => TOOLS[tool].names.map((name) => join(folder, name))).find(isRunnable)
  return found ?? (tool === 'chromium' && existsSync(MAC_CHROME) ? MAC_CHROME : undefined)
}

/** Finds the programs, installs those missing when it may (root on Debian), and names the ones still missing. */
export async function ensureTools(tools: readonly ToolName[]): Promise<ToolName[]> {
  const missing = tools.filter((tool) => findTool(tool) === undefined)
  if (missing.length === 0) return []
  const packages = [...new Set(missing.flatMap((tool) => TOOLS[tool].aptPackages))]
  if (mayInstall()) {
    process.stdout.write(`Installing ${packages.join(', ')}\n`)
    const env = { DEBIAN_FRONTEND: 'noninteractive' }
    await runCommand({ run: 'apt-get', args: ['update', '-q'], env })
    await runCommand({ run: 'apt-get', args: ['install', '-y', '-q', '--no-install-recommends', ...packages], env })
  }
  const still = missing.filter((tool) => findTool(tool) === undefined)
  if (still.length > 0) {
    process.stdout.write(`Missing: ${still.join(', ')}. Install with: apt-get install ${packages.join(' ')}\n`)
  }
  return still
}

function mayInstall(): boolean {
  return process.getuid?.() === 0 && spawnSync('apt-get', ['--version'], { stdio: 'ignore' }).status === 0
}

function isRunnable(path: string): boolean {
  try {
    accessSync(path, constants.X_OK)
    return true
  } catch {
    return false
  }
}
