import { useEffect } from 'react'

/** Keeps the screen on while `wanted`: a clock nobody sees is no clock. The browser lets go when the page is hidden; it is asked again then. */
export function useWakeLock(wanted: boolean): void {
  useEffect(() => {
    if (!wanted || !('wakeLock' in navigator)) return undefined
    let held: WakeLockSentinel | undefined
    let over = false
    const ask = async (): Promise<void> => {
      if (document.hidden || (held !== undefined && !held.released)) return
      try {
        held = await navigator.wakeLock.request('screen')
        if (over) await held.release()
      } catch {
        // a device low on power refuses: the clocks are right all the same
      }
    }
    const asked = (): void => void ask()
    asked()
    document.addEventListener('visibilitychange', asked)
    return () => {
      over = true
      document.removeEventListener('visibilitychange', asked)
      void held?.release().catch(() => undefined)
    }
  }, [wanted])
}
