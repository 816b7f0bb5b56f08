import { useEffect } from 'react'
import { holdUpdates } from './busy.ts'

/** Keeps a newer version waiting while something is under way on the screen; reloading would lose it. */
export function useHold(reason: string, underWay = true): void {
  useEffect(() => (underWay ? holdUpdates(reason) : undefined), [reason, underWay])
}
