import { localDate, type LocalInstant, wallClock } from '@rillmark/casebook/units/local-time.ts'

/** The instant it is, or a given one, with the offset from UTC in force on this device then: as entries keep them. */
export function localInstant(ms = Date.now()): LocalInstant {
  const at = new Date(ms)
  const minutes = -at.getTimezoneOffset()
  const size = Math.abs(minutes)
  const two = (value: number): string => String(value).padStart(2, '0')
  return {
    instant: at.toISOString(),
    offset: `${minutes < 0 ? '-' : '+'}${two(Math.floor(size / 60))}:${two(size % 60)}`,
  }
}

/** The calendar day it is, or was at a moment, on this device. */
export function localDay(ms = Date.now()): string {
  return localDate(localInstant(ms))
}

/** Date and time of day now on this device, as fields for both hold them: `2026-03-14T09:40`. */
export function localMinute(): string {
  return wallClock(localInstant()).replace(' ', 'T')
}
