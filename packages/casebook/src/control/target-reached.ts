import type { Amount } from './target-words.ts'

/** Why what was achieved falls short of what was wanted; undefined where it does not. More heat, chlorine or time is never too little. */
export function shortOf(target: Amount, achieved: Amount): string | undefined {
  if (target.quantity === 'other' || achieved.quantity === 'other') return undefined
  if (target.quantity !== achieved.quantity)
    return `${target.quantity} was asked for, ${achieved.quantity} was measured`
  if (target.unit !== achieved.unit) return `asked for in ${target.unit}, measured in ${achieved.unit}`
  if (achieved.value < target.value) return `${achieved.value} of ${target.value} ${target.unit}`
  if (target.minutes === undefined) return undefined
  if (achieved.minutes === undefined) return `how long it was held is missing, ${target.minutes} min wanted`
  return achieved.minutes < target.minutes ? `${achieved.minutes} of ${target.minutes} min` : undefined
}
