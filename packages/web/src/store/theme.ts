import { readKept } from './keep.ts'

export const THEMES = ['system', 'light', 'dark', 'contrast'] as const
export type Theme = (typeof THEMES)[number]

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
