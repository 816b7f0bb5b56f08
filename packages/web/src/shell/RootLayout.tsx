import { Outlet, useRouter } from '@tanstack/react-router'
import { type ReactNode, Suspense, useEffect } from 'react'
import { rememberPlace } from '../offline/last-place.ts'
import { watchTakeover } from '../offline/takeover.ts'
import { holdWhileTyped } from '../offline/typed.ts'
import { lazyPart } from './lazy-part.tsx'
import { useRouteFocus } from './useRouteFocus.ts'
import { whenIdle } from './when-idle.ts'

/** After the screen: what the lines have to say can wait for it. */
const OfflineLines = lazyPart(async () => {
  await whenIdle()
  return { default: (await import('../offline/OfflineLines.tsx')).OfflineLines }
})

/** Around everything: the way past the navigation, what this device has to say, and focus that follows the screen. */
export function RootLayout(): ReactNode {
  useRouteFocus()
  useRememberedPlace()
  // from the first moment on, before the lines that tell of a newer version are there
  useEffect(() => holdWhileTyped(document), [])
  useEffect(watchTakeover, [])
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
