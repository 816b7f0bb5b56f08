import { Outlet, useRouter } from '@tanstack/react-router'
import { lazy, type ReactNode, Suspense, useEffect } from 'react'
import { rememberPlace } from '../offline/last-place.ts'
import { useRouteFocus } from './useRouteFocus.ts'

const OfflineLines = lazy(() =>
  import('../offline/OfflineLines.tsx').then((module) => ({ default: module.OfflineLines })),
)

/** Around everything: the way past the navigation, what this device has to say, and focus that follows the screen. */
export function RootLayout(): ReactNode {
  useRouteFocus()
  useRememberedPlace()
  return (
    <>
      <a href="#main" className="skip">
        Go to the screen
      </a>
      <Suspense>
        <OfflineLines />
      </Suspense>
      <Outlet />
    </>
  )
}

/** Where the installed app opens the next time. */
function useRememberedPlace(): void {
  const router = useRouter()
  useEffect(() => router.subscribe('onResolved', ({ toLocation }) => rememberPlace(toLocation.pathname)), [router])
}
