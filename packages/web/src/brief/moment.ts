import type { Moment } from '@rillmark/casebook/brief/brief-view.ts'

/** Now, and the local day it is. */
export function momentNow(): Moment {
  const now = new Date()
  const today = new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 10)
  return { nowMs: now.getTime(), today }
}
