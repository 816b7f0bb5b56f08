import type { Moment } from '@rillmark/casebook/brief/brief-view.ts'
import { localDay } from '../store/local-time.ts'
import { rightNow } from '../store/right-clock.ts'

/** Now, and the local day it is. */
export function momentNow(): Moment {
  const nowMs = rightNow()
  return { nowMs, today: localDay(nowMs) }
}
