import { createContext, type ReactNode, useContext, useEffect, useMemo, useState } from 'react'
import { keep, readKept } from './keep.ts'

export const THEMES = ['system', 'light', 'dark', 'contrast'] as const
export type Theme = (typeof THEMES)[number]

/** The units numbers are shown in. What was given keeps its own unit in the record. */
export interface DisplayUnits {
  readonly temperature: '°C' | '°F'
  readonly volume: 'L' | 'gal'
  readonly length: 'mm' | 'in'
  readonly count: 'per mL' | 'per 100 mL' | 'per L'
}

export interface Preferences {
  readonly theme: Theme
  readonly units: DisplayUnits
  readonly setTheme: (theme: Theme) => void
  readonly setUnits: (units: DisplayUnits) => void
}

export const UNIT_CHOICES: { readonly [K in keyof DisplayUnits]: readonly DisplayUnits[K][] } = {
  temperature: ['°C', '°F'],
  volume: ['L', 'gal'],
  length: ['mm', 'in'],
  count: ['per mL', 'per 100 mL', 'per L'],
}

const FIRST_UNITS: DisplayUnits = { temperature: '°C', volume: 'L', length: 'mm', count: 'per mL' }

const Context = createContext<Preferences>({
  theme: 'system',
  units: FIRST_UNITS,
  setTheme: () => undefined,
  setUnits: () => undefined,
})

/** Theme and display units of this device. */
export function usePreferences(): Preferences {
  return useContext(Context)
}

export function PreferencesProvider({ children }: { readonly children: ReactNode }): ReactNode {
  const [theme, setTheme] = useState(keptTheme)
  const [units, setUnits] = useState(keptUnits)
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

function keptUnits(): DisplayUnits {
  const kept = readKept('units')
  const given: Record<string, unknown> = typeof kept === 'object' && kept !== null ? { ...kept } : {}
  const pick = <T extends string>(choices: readonly T[], value: unknown, otherwise: T): T =>
    choices.find((choice) => choice === value) ?? otherwise
  return {
    temperature: pick(UNIT_CHOICES.temperature, given['temperature'], FIRST_UNITS.temperature),
    volume: pick(UNIT_CHOICES.volume, given['volume'], FIRST_UNITS.volume),
    length: pick(UNIT_CHOICES.length, given['length'], FIRST_UNITS.length),
    count: pick(UNIT_CHOICES.count, given['count'], FIRST_UNITS.count),
  }
}
