import { useEffect, useState } from 'react'

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

/** "45 s", "1 min 20 s", "2 min". */
export function secondsInWords(seconds: number): string {
  const minutes = Math.floor(seconds / 60)
  const rest = Math.round(seconds - minutes * 60)
  if (minutes === 0) return `${rest} s`
  return rest === 0 ? `${minutes} min` : `${minutes} min ${rest} s`
}
