import type { DisplayUnits } from '@rillmark/casebook/units/display-units.ts'
import { showReckoned } from '@rillmark/casebook/units/display.ts'

const DIGITS = 3

/** From the least to the greatest an output gets while one guess goes through its range: `52.1 to 55.4 °C`; one figure where it stays. */
export function effectRange(
  effect: { readonly baseline: number; readonly atLower: number | undefined; readonly atUpper: number | undefined },
  { unit, units }: { unit: string; units: DisplayUnits },
): string {
  const all = [effect.baseline, effect.atLower, effect.atUpper].filter((one) => one !== undefined)
  const [low, high] = [Math.min(...all), Math.max(...all)].map((value) =>
    showReckoned(value, { unit, units, digits: DIGITS }),
  )
  if (low === undefined || high === undefined) return ''
  return low.words === high.words ? high.words : `${low.text} to ${high.words}`
}
