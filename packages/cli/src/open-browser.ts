import { spawn } from 'node:child_process'
import { accessSync, constants } from 'node:fs'
import { delimiter, join } from 'node:path'

/** The machine a command runs on, as far as it decides whether a browser can be opened. */
export interface Desktop {
  readonly platform: NodeJS.Platform
  readonly env: Readonly<Record<string, string | undefined>>
  /** whether a program is on the path */
  readonly has: (program: string) => boolean
}

/**
 * The command that opens an address in the browser of whoever sits at this machine; undefined where nobody does: over a remote shell, or
 * without a desktop.
 */
export function browserCommand(
  address: string,
  { platform, env, has }: Desktop,
): { program: string; args: string[] } | undefined {
  if (env['SSH_CONNECTION'] !== undefined || env['CI'] !== undefined) return undefined
  if (platform === 'darwin') return has('open') ? { program: 'open', args: [address] } : undefined
  if (platform === 'win32') return { program: 'cmd', args: ['/c', 'start', '""', address] }
  const seen = [env['DISPLAY'], env['WAYLAND_DISPLAY']].some((display) => display !== undefined && display !== '')
  return seen && has('xdg-open') ? { program: 'xdg-open', args: [address] } : undefined
}

/** Opens an address in the browser where there is one; says whether it was tried. Whatever goes wrong with it is no failure of ours. */
export function openBrowser(address: string): boolean {
  const command = browserCommand(address, { platform: process.platform, env: process.env, has: isOnPath })
  if (command === undefined) return false
  try {
    const child = spawn(command.program, command.args, { detached: true, stdio: 'ignore', windowsHide: true })
    child.on('error', () => undefined)
    child.unref()
    return true
  } catch {
    return false
  }
}

function isOnPath(program: string): boolean {
  return (process.env['PATH'] ?? '').split(delimiter).some((folder) => {
    try {
      accessSync(join(folder, program), constants.X_OK)
      return folder !== ''
    } catch {
      return false
    }
  })
}
