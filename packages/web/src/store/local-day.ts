/** The calendar day it is on this device at a moment. */
export function localDay(nowMs: number): string {
  const now = new Date(nowMs)
  return new Date(nowMs - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 10)
}
