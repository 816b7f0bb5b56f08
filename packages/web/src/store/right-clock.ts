import { makeSignal } from '../offline/signal.ts'
import { keep, readKept } from './keep.ts'

const MS_PER_S = 1000
/** As the server judges it: less is right enough, and two measurements this near differ by the network. */
const WRONG_FROM_S = 60
const SAME_WITHIN_S = 5
const KEY = 'clockAheadS'

/** How far the clock of this device is ahead of the server's, in seconds, as last measured; 0 where it is right to the minute. */
export const clockAhead = makeSignal<number>(keptAhead())

function keptAhead(): number {
  const kept = readKept(KEY)
  return typeof kept === 'number' && Number.isFinite(kept) ? kept : 0
}

/** Holds this device's clock against what the server's showed when it answered. */
export function measureClock({ serverNow, nowMs }: { serverNow: string; nowMs: number }): void {
  const ahead = Math.round((nowMs - Date.parse(serverNow)) / MS_PER_S)
  if (!Number.isFinite(ahead)) return
  const right = Math.abs(ahead) < WRONG_FROM_S ? 0 : ahead
  if (right === clockAhead.get() || (right !== 0 && Math.abs(right - clockAhead.get()) <= SAME_WITHIN_S)) return
  keep(KEY, right)
  clockAhead.set(right)
}

/** The moment it is by the server's clock, as far as it was measured: what times in the record are held against. */
export function rightNow(): number {
  return Date.now() - clockAhead.get() * MS_PER_S
}
