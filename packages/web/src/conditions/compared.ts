import type { Water } from '@rillmark/casebook/conditions/compare-conditions.ts'
import type { PlaceConditions } from '@rillmark/casebook/conditions/conditions.ts'
import { type ShownQuantity, unitOf } from '@rillmark/casebook/conditions/shown-quantity.ts'
import type { DisplayUnits } from '@rillmark/casebook/units/display-units.ts'

/** One figure of a water that is set side by side before and after a change. */
export interface Compared {
  readonly words: string
  readonly quantity: ShownQuantity
  readonly of: (place: PlaceConditions) => number
  readonly sides: readonly Water[]
  /** Smaller changes can't be seen in the figure as it is shown. */
  readonly shows: number
}

const ALL: readonly Water[] = ['hot', 'tempered', 'cold']

export const COMPARED = {
  'hottest-hot': {
    words: 'Hottest the hot water gets',
    quantity: 'temperature',
    of: ({ temperatureC }) => temperatureC.max,
    sides: ['hot', 'tempered'],
    shows: 0.1,
  },
  'coolest-cold': {
    words: 'Coolest the cold water gets',
    quantity: 'temperature',
    of: ({ temperatureC }) => temperatureC.min,
    sides: ['cold'],
    shows: 0.1,
  },
  age: { words: 'Mean age', quantity: 'age', of: ({ ageHours }) => ageHours.mean, sides: ALL, shows: 0.1 },
  residual: {
    words: 'Mean residual',
    quantity: 'residual',
    of: ({ residualMgPerL }) => residualMgPerL.mean,
    sides: ALL,
    shows: 0.01,
  },
  band: {
    words: 'Hours in the growth band',
    quantity: 'standing',
    of: ({ hoursInGrowthBand }) => hoursInGrowthBand,
    sides: ALL,
    shows: 0.1,
  },
  growth: { words: 'Growth index', quantity: 'growth', of: ({ growthIndex }) => growthIndex, sides: ALL, shows: 0.01 },
} as const satisfies Readonly<Record<string, Compared>>

export type ComparedBy = keyof typeof COMPARED

export function comparedLabel(by: ComparedBy, units: DisplayUnits): string {
  const { words, quantity } = COMPARED[by]
  const unit = unitOf(quantity, units)
  return unit === '' ? words : `${words}, ${unit}`
}
