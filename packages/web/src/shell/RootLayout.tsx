import { Outlet } from '@tanstack/react-router'
import type { ReactNode } from 'react'
import { useRouteFocus } from './useRouteFocus.ts'

/** Around everything: the way past the navigation, and focus that follows the screen. */
export function RootLayout(): ReactNode {
  useRouteFocus()
  return (
    <>
      <a href="#main" className="skip">
        Go to the screen
      </a>
      <Outlet />
    </>
  )
}
