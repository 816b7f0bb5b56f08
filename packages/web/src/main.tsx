import { RouterProvider } from '@tanstack/react-router'
import { StrictMode } from 'react'
import { createRoot } from 'react-dom/client'
import './look/fonts.css'
import './look/tokens.css'
import './look/base.css'
import './look/shell.css'
import './look/layout.css'
import './look/fields.css'
import './look/table.css'
import './look/overlays.css'
import './look/marks.css'
import './look/print.css'
import './look/still.css'
import { Toasts } from './kit/Toasts.tsx'
import { lastPlace } from './offline/last-place.ts'
import { router } from './routes.tsx'
import { AuthorProvider } from './store/author.tsx'
import { DeviceProvider, lazyDevice } from './store/device.tsx'
import { PreferencesProvider } from './store/preferences.tsx'
import { followTheme, keptTheme } from './store/theme.ts'

followTheme(keptTheme())()

const device = lazyDevice(async () => (await import('./sync/browser-device.ts')).browserDevice())

// An investigation that the address names is read from this device while its screens are still on their way.
const { pathname } = location
const asked = /^\/i\/([^/]+)/.exec(pathname === '/open' ? lastPlace() : pathname)?.[1]
if (asked !== undefined) void device.open(decodeURIComponent(asked)).catch(() => undefined)

const place = document.getElementById('app')
if (place === null) throw new TypeError('Cannot start because the page has no place for the app')
createRoot(place).render(
  <StrictMode>
    <PreferencesProvider>
      <AuthorProvider>
        <DeviceProvider device={device}>
          <Toasts>
            <RouterProvider router={router} />
          </Toasts>
        </DeviceProvider>
      </AuthorProvider>
    </PreferencesProvider>
  </StrictMode>,
)
