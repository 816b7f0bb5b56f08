import { type DisplayUnits, METRIC_UNITS } from '@rillmark/casebook/units/display-units.ts'
import { createContext, type ReactNode, useContext, useEffect, useMemo, useState } from 'react'
import { keep, readKept } from './keep.ts'
import { keptUnits } from './kept-units.ts'

export const THEMES = ['system', 'light', 'dark', 'contrast'] as const
export type Theme = (typeof THEMES)[number]

export interface Preferences {
  readonly theme: Theme
  readonly units: DisplayUnits
  readonly setTheme: (theme: Theme) => void
  readonly setUnits: (units: DisplayUnits) => void
}

const Context = createContext<Preferences>({
  theme: 'system',
  units: METRIC_UNITS,
  setTheme: () => undefined,
  setUnits: () => undefined,
})

/** Theme and display units of this device. */
export function usePreferences(): Preferences {
  return useContext(Context)
}

export function PreferencesProvider({ children }: { readonly children: ReactNode }): ReactNode {
  const [theme, setTheme] = useState(keptTheme)
  const [units, setUnits] = useState(() => keptUnits(readKept('units')))
  useEffect(() => followTheme(theme), [theme])
  const value = useMemo(
    () => ({
      theme,
      units,
      setTheme: (next: Theme) => {
        keep('theme', next)
        setTheme(next)
      },
      setUnits: (next: DisplayUnits) => {
        keep('units', next)
        setUnits(next)
      },
    }),
    [theme, units],
  )
  return <Context value={value}>{children}</Context>
}

/** Sets the theme now; for 'system' also follows the device while it lasts. Returns how to stop following. */
export function followTheme(theme: Theme): () => void {
  const dark = matchMedia('(prefers-color-scheme: dark)')
  const contrast = matchMedia('(prefers-contrast: more)')
  const apply = (): void => {
    document.documentElement.dataset['theme'] =
      theme === 'system' ? (contrast.matches ? 'contrast' : dark.matches ? 'dark' : 'light') : theme
  }
  apply()
  if (theme !== 'system') return () => undefined
  dark.addEventListener('change', apply)
  contrast.addEventListener('change', apply)
  return () => {
    dark.removeEventListener('change', apply)
    contrast.removeEventListener('change', apply)
  }
}

export function keptTheme(): Theme {
  const kept = readKept('theme')
  return THEMES.find((theme) => theme === kept) ?? 'system'
}
