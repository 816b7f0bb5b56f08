import { STEPS } from '@rillmark/casebook/entry/steps.ts'

/** One picture to take: a screen, at a size, in a theme. */
export type Scene = { readonly screen: string; readonly size: Size; readonly theme: Theme }

export type Size = { readonly name: string; readonly width: number; readonly height: number }
export type Theme = 'light' | 'dark'

/** Screens outside any investigation, with their addresses. */
const OUTSIDE: ReadonlyMap<string, string> = new Map([
  ['start', '/'],
  ['calculators-alone', '/calculators'],
  ['kit', '/kit'],
])

/** Every screen: those outside, the job in its order with the record, and the calculators beside the job. */
export const SCREENS: readonly string[] = [...OUTSIDE.keys(), ...STEPS, 'calculators']
export const SIZES: readonly Size[] = [
  { name: 'desk', width: 1440, height: 900 },
  { name: 'phone', width: 390, height: 844 },
]
export const THEMES: readonly Theme[] = ['light', 'dark']

/** Every screen at every size in every theme. */
export function allScenes(): Scene[] {
  return SIZES.flatMap((size) => THEMES.flatMap((theme) => SCREENS.map((screen) => ({ screen, size, theme }))))
}

/** Where a screen is found in the app, for one investigation. */
export function addressOf(screen: string, investigation: string): string {
  return OUTSIDE.get(screen) ?? `/i/${encodeURIComponent(investigation)}/${screen}`
}

export function fileOf({ screen, size, theme }: Scene): string {
  return `${screen}-${size.name}-${theme}.png`
}
