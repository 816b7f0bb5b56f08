import { useEffect, useState } from 'react'

const EVERY_MS = 30_000

/** The moment it is, looked at again every half minute. */
export function useNow(): number {
  const [nowMs, setNowMs] = useState(() => Date.now())
  useEffect(() => {
    const timer = setInterval(() => setNowMs(Date.now()), EVERY_MS)
    return () => clearInterval(timer)
  }, [])
  return nowMs
}
