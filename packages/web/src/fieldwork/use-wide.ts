import { useSyncExternalStore } from 'react'

/** From this width the list, the stop and the drawing stand side by side. */
const WIDE = '(min-width: 1180px)'

export function useWide(): boolean {
  return useSyncExternalStore(
    (changed) => {
      const media = window.matchMedia(WIDE)
      media.addEventListener('change', changed)
      return () => media.removeEventListener('change', changed)
    },
    () => window.matchMedia(WIDE).matches,
  )
}
