import { type Component, isOutlet, type WaterSystem } from '../building/water-system.ts'
import type { Layer, Mark, Wash } from '../drawing/layers.ts'
import { type DisplayUnits, METRIC_UNITS } from '../units/display-units.ts'
import { clockOf } from './clock-of.ts'
import type { Conditions, ConditionsSeries, PlaceConditions } from './conditions.ts'
import { curveAt, dayCurve } from './day-curve.ts'
import {
  QUANTITY_TITLES,
  SCALE_TONES,
  type ShownQuantity,
  type Side,
  type WholeDay,
  showPredicted,
  stepWords,
  toneOf,
  wholeDay,
} from './shown-quantity.ts'
import { arrivalPipes, placeOn, sideOfCircuit, sidesOfPlant } from './side-of.ts'

export interface PredictedView {
  readonly system: WaterSystem
  readonly conditions: Conditions
  readonly series?: ConditionsSeries | undefined
  readonly quantity: ShownQuantity
  readonly side: Side
  /** The span of the day, from 0; the whole day where left out. */
  readonly slot?: number | undefined
  /** Which figure of the whole day; its mean where left out. */
  readonly by?: WholeDay | undefined
  readonly units?: DisplayUnits
}

/**
 * The predicted water on the riser diagram: outlets and plant as marks with their figure, pipes washed with the tone of the water at
 * their end. Where no water moves the mark is a square, where nothing can be said a small ring.
 */
export function predictedLayer(view: PredictedView): Layer {
  const { system, quantity, units = METRIC_UNITS } = view
  const plantSides = sidesOfPlant(system)
  const arrivals = arrivalPipes(system)
  const unknown = residualUnknown(view)
  const marks = system.components.flatMap((component): Mark[] => {
    if (component.kind === 'junction') return []
    if (unknown) return isOutlet(component) ? [unsaid(component)] : []
    const conditions = view.conditions.components[component.id]
    const place = conditions === undefined ? undefined : placeOn(view.side, { component, conditions, plantSides })
    if (place !== undefined)
      return [markOf(component, { value: valueAt(component, { place, view, arrivals }), place, view, units })]
    return conditions === undefined && isOutlet(component) ? [unsaid(component)] : []
  })
  const words = stepWords(quantity, units)
  const still = marks.some(({ form }) => form === 'square')
  return {
    name: layerName(view),
    marks,
    washes: unknown ? [] : washesOf(view),
    legend: [
      ...SCALE_TONES.map((tone, at) => ({ form: 'disc' as const, tone, text: words[at] ?? '' })),
      ...(still ? [{ form: 'square' as const, tone: 'muted' as const, text: 'no water moves here' }] : []),
      ...(marks.some(({ form }) => form === 'ring')
        ? [{ form: 'ring' as const, tone: 'muted' as const, text: 'nothing can be said' }]
        : []),
    ],
    pressing: pressingTones(view),
  }
}

/** A supply of which nobody said what residual it brings tells nothing of the residual anywhere. */
const residualUnknown = ({ quantity, conditions }: PredictedView): boolean =>
  quantity === 'residual' && conditions.residualUnknown === true

/** `Predicted temperature, hot side, 07:15`; of growth and standing, which have one figure a day, `whole day`. */
function layerName({ quantity, side, slot, series, by = 'mean' }: PredictedView): string {
  const whole = quantity === 'growth' || quantity === 'standing' ? 'whole day' : `${by} of the day`
  const when = slot === undefined || series === undefined ? whole : clockOf(slot, series.slots)
  return `Predicted ${QUANTITY_TITLES[quantity].toLowerCase()}, ${side} side, ${when}`
}

/** Cool hot water, warm cold water, and of the rest what is old, undisinfected, favourable to growth or standing come first. */
function pressingTones({ quantity, side }: PredictedView): readonly (typeof SCALE_TONES)[number][] {
  const lowFirst = quantity === 'residual' || (quantity === 'temperature' && side === 'hot')
  return lowFirst ? SCALE_TONES : SCALE_TONES.toReversed()
}

function markOf(
  component: Component,
  given: { value: number; place: PlaceConditions; view: PredictedView; units: DisplayUnits },
): Mark {
  const { value, place, units } = given
  const { quantity, side } = given.view
  const still = place.neverMoves === true
  const atLeast = still && quantity === 'age'
  const figure = showPredicted(value, { quantity, units })
  const name = `${QUANTITY_TITLES[quantity].toLowerCase()}, ${side} side`
  return {
    component: component.id,
    form: still ? 'square' : 'disc',
    tone: toneOf(value, quantity),
    text: `${atLeast ? '≥ ' : ''}${showPredicted(value, { quantity, units, brief: true }).text}`,
    label: `predicted ${name}: ${atLeast ? 'at least ' : ''}${figure.words}${still ? ', no water moves here' : ''}`,
  }
}

interface At {
  readonly place: PlaceConditions
  readonly view: PredictedView
  readonly arrivals: ReturnType<typeof arrivalPipes>
}

/** The figure at the hour looked at, else of the whole day. */
function valueAt(component: Component, { place, view, arrivals }: At): number {
  const { series, slot, side, quantity } = view
  if (series === undefined || slot === undefined) return wholeDay(place, { quantity, by: view.by })
  return (
    curveAt(series, { component, side, arrivals, conditions: view.conditions, quantity })?.[slot] ??
    wholeDay(place, { quantity, by: view.by })
  )
}

const unsaid = (component: Component): Mark => ({
  component: component.id,
  form: 'ring',
  size: 'small',
  tone: 'muted',
  label: 'nothing can be predicted here',
})

function washesOf({ system, conditions, series, quantity, side, slot, by }: PredictedView): Wash[] {
  return system.pipes.flatMap(({ id, circuit }): Wash[] => {
    const end = conditions.pipes[id]?.end
    if (end === undefined || sideOfCircuit(circuit) !== side) return []
    const now =
      series === undefined || slot === undefined ? undefined : dayCurve(series, { pipe: id, quantity })?.[slot]
    return [{ pipe: id, tone: toneOf(now ?? wholeDay(end, { quantity, by }), quantity) }]
  })
}
