import { useEffect, useRef, useState } from 'react'
import { ClockWatch } from './clock-watch.ts'

/** Whole seconds since an instant kept in a draft, from the wall clock: right after a reload, a locked screen or a night. */
export function secondsSince(startedAt: string, now: number): number | undefined {
  const started = Number(startedAt)
  if (startedAt === '' || !Number.isFinite(started)) return undefined
  return Math.max(0, Math.floor((now - started) / 1000))
}

/** The seconds of a running clock, counted on twice a second while the page is seen. */
export function useSecondsSince(startedAt: string): number | undefined {
  const [now, setNow] = useState(() => Date.now())
  useEffect(() => {
    if (startedAt === '') return undefined
    const tick = (): void => setNow(Date.now())
    tick()
    const timer = setInterval(tick, 500)
    document.addEventListener('visibilitychange', tick)
    return () => {
      clearInterval(timer)
      document.removeEventListener('visibilitychange', tick)
    }
  }, [startedAt])
  return secondsSince(startedAt, now)
}

const LOOK_EVERY_MS = 500

/**
 * While a clock runs from an instant kept in a draft: calls back with the instant it would have been kept as by the device's clock as it is
 * now, whenever that clock was set. So what is kept goes on right, also through a reload.
 */
export function useClockSet(startedAt: string, onSet: (moved: (kept: string) => string) => void): void {
  const latest = useRef(onSet)
  useEffect(() => {
    latest.current = onSet
  })
  const running = startedAt !== ''
  useEffect(() => {
    if (!running) return undefined
    const watch = new ClockWatch(() => ({ wallMs: Date.now(), countMs: performance.now() }))
    const wasSet = (byMs: number): void => {
      if (byMs !== 0) latest.current((kept) => movedBy(kept, byMs))
    }
    const look = (): void => wasSet(watch.look())
    const seen = (): void => wasSet(watch.see(!document.hidden))
    const timer = setInterval(look, LOOK_EVERY_MS)
    document.addEventListener('visibilitychange', seen)
    return () => {
      clearInterval(timer)
      document.removeEventListener('visibilitychange', seen)
    }
  }, [running])
}

/** A kept instant after the clock was set by so much; nothing kept stays nothing. */
export function movedBy(kept: string, byMs: number): string {
  return kept === '' || !Number.isFinite(Number(kept)) ? kept : String(Number(kept) + byMs)
}

/** "45 s", "1 min 20 s", "2 min". */
export function secondsInWords(seconds: number): string {
  const minutes = Math.floor(seconds / 60)
  const rest = Math.round(seconds - minutes * 60)
  if (minutes === 0) return `${rest} s`
  return rest === 0 ? `${minutes} min` : `${minutes} min ${rest} s`
}
