import { keep, readKept } from '../store/keep.ts'

const KEY = 'last-place'
const WITHIN = /^\/i\/[^/]+\/[a-z-]+$/

/** Remembers the screen of an investigation that was shown last; other screens leave it as it is. */
export function rememberPlace(pathname: string): void {
  if (WITHIN.test(pathname) && readKept(KEY) !== pathname) keep(KEY, pathname)
}

/** The screen shown last, or the start page: where the installed app opens. */
export function lastPlace(): string {
  const kept = readKept(KEY)
  return typeof kept === 'string' && WITHIN.test(kept) ? kept : '/'
}

/** After an investigation was let go: the app no longer opens there. */
export function forgetPlace(investigation: string): void {
  if (lastPlace().startsWith(`/i/${encodeURIComponent(investigation)}/`)) keep(KEY, '/')
}
