import { type DisplayUnits, METRIC_UNITS } from '@rillmark/casebook/units/display-units.ts'
import { createContext, type ReactNode, useContext, useEffect, useMemo, useState } from 'react'
import { keep, readKept } from './keep.ts'
import { keptUnits } from './kept-units.ts'
import { followTheme, keptTheme, type Theme } from './theme.ts'

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
