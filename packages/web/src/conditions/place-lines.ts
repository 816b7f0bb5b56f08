import { type Circuit, type Component, isOutlet } from '@rillmark/casebook/building/water-system.ts'
import type { ConditionsSeries, PlaceConditions } from '@rillmark/casebook/conditions/conditions.ts'
import { dayCurve, flowCurve } from '@rillmark/casebook/conditions/day-curve.ts'
import type { ShownQuantity, Side } from '@rillmark/casebook/conditions/shown-quantity.ts'
import { arrivalPipes, arriving, sidesOfPlant } from '@rillmark/casebook/conditions/side-of.ts'
import type { ShownPrediction } from './use-prediction.ts'

/** One water at a place: what is known of it over the day and by the hour. */
export interface WaterLine {
  readonly side: Side
  /** `hot`, `cold`, `tempered`. */
  readonly words: string
  readonly place: PlaceConditions
  readonly curve: (quantity: ShownQuantity) => Float32Array | undefined
  /** Flow in the pipe it arrives through; undefined for plant. */
  readonly flow: Float32Array | undefined
}

/** The waters of a part: of an outlet hot and cold as they arrive, of anything else its own. */
export function waterLines(component: Component, { conditions, series, system }: ShownPrediction): WaterLine[] {
  const found = conditions.components[component.id]
  if (found === undefined) return []
  if (!isOutlet(component)) {
    const side = sidesOfPlant(system).get(component.id) ?? 'cold'
    const curve = (quantity: ShownQuantity) =>
      series === undefined ? undefined : dayCurve(series, { component: component.id, quantity })
    return [{ side, words: side, place: found, curve, flow: undefined }]
  }
  const pipes: Partial<Record<Circuit, string>> = arrivalPipes(system).get(component.id) ?? {}
  return (['hot', 'cold'] as const).flatMap((side): WaterLine[] => {
    const water = arriving(found, side)
    if (water === undefined) return []
    return [{ side, words: water.as, place: water.place, ...alongPipe(series, pipes[water.as]) }]
  })
}

function alongPipe(series: ConditionsSeries | undefined, pipe: string | undefined): Pick<WaterLine, 'curve' | 'flow'> {
  if (series === undefined || pipe === undefined) return { curve: () => undefined, flow: undefined }
  return { curve: (quantity) => dayCurve(series, { pipe, quantity }), flow: flowCurve(series, pipe) }
}
