import type { Conditions } from '@rillmark/casebook/conditions/conditions.ts'
import type { ShownQuantity } from '@rillmark/casebook/conditions/shown-quantity.ts'

const CHARTED: readonly ShownQuantity[] = ['temperature', 'age', 'residual']

/** What is charted of a place over the day; no residual where that of the supply is not described. */
export const chartedOf = ({ residualUnknown }: Conditions): readonly ShownQuantity[] =>
  CHARTED.filter((quantity) => quantity !== 'residual' || residualUnknown !== true)
