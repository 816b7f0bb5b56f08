import { useEffect, useState } from 'react'
import { rightNow } from './right-clock.ts'

const EVERY_MS = 30_000

/** The moment it is by the clock of the record, looked at again every half minute. */
export function useNow(): number {
  const [nowMs, setNowMs] = useState(rightNow)
  useEffect(() => {
    const timer = setInterval(() => setNowMs(rightNow()), EVERY_MS)
    return () => clearInterval(timer)
  }, [])
  return nowMs
}
