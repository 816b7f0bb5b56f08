import { useRouter } from '@tanstack/react-router'
import { useEffect } from 'react'

/** After a change of screen, moves focus to the main part, so that keyboard and screen reader go on from there. */
export function useRouteFocus(): void {
  const router = useRouter()
  useEffect(
    () =>
      router.subscribe('onResolved', ({ fromLocation, pathChanged }) => {
        if (fromLocation === undefined || !pathChanged) return
        document.getElementById('main')?.focus({ preventScroll: true })
      }),
    [router],
  )
}
