import type { Moment } from '@rillmark/casebook/brief/brief-view.ts'
import { localDay } from '../store/local-time.ts'

/** Now, and the local day it is. */
export function momentNow(): Moment {
  const nowMs = Date.now()
  return { nowMs, today: localDay(nowMs) }
}
