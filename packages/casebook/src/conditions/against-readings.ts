import { buildGraph } from '../building/graph.ts'
import { ownReturns, returnLegs } from '../building/graph-questions.ts'
import type { WaterSystem } from '../building/water-system.ts'
import type { ReadingQuantity } from '../fieldwork/kinds.ts'
import type { EffectiveEntry } from '../state/effective.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { wallClock } from '../units/local-time.ts'
import type { Conditions, ConditionsSeries, PlaceConditions } from './conditions.ts'
import { dayCurve } from './day-curve.ts'
import type { ShownQuantity, Side } from './shown-quantity.ts'
import { arrivalPipes, arriving, placeOn, sidesOfPlant } from './side-of.ts'

/** One reading of a component beside what was predicted for the same water. */
export interface AgainstReading {
  readonly entry: EffectiveEntry<'reading.taken'>
  readonly side: Side
  readonly quantity: ShownQuantity
  /** Local time of day, in minutes after midnight. */
  readonly minute: number
  /** At that time of day, where curves were kept; else the mean. */
  readonly predicted: number
  readonly lowest: number
  readonly highest: number
  /** The measured value lies within the predicted day; undefined where the reading is only a bound. */
  readonly within?: boolean
}

interface Of {
  readonly state: InvestigationState
  readonly system: WaterSystem
  readonly conditions: Conditions
  readonly series?: ConditionsSeries | undefined
  readonly component: string
}

/** The temperatures and residuals read at a component, in the order of the record, each beside its prediction. */
export function againstReadings(of: Of): AgainstReading[] {
  const part = of.system.components.find(({ id }) => id === of.component)
  const found = of.conditions.components[of.component]
  if (part === undefined || found === undefined) return []
  const plantSides = sidesOfPlant(of.system)
  const arrivals = arrivalPipes(of.system).get(of.component) ?? {}
  const [ownReturn] = ownReturns(returnLegs(buildGraph(of.system)), part)
  return of.state.fieldwork.readings.flatMap((entry): AgainstReading[] => {
    const at = entry.body.component ?? stopComponent(of.state, entry)
    const quantity = MEASURED[entry.body.quantity]
    if (at !== of.component || quantity === undefined) return []
    const side = sideOf(entry)
    const own = side === 'hot' ? ownReturn : undefined
    const ownEnd = own === undefined ? undefined : of.conditions.pipes[own]?.end
    const place = ownEnd ?? placeOn(side, { component: part, conditions: found, plantSides })
    if (place === undefined) return []
    const minute = localMinute(entry)
    const as = arriving(found, side)?.as
    const pipe = own ?? (as === undefined ? undefined : arrivals[as])
    const curve = curveOf(of, { pipe, quantity })
    const now = curve?.[Math.floor((minute * curve.length) / MINUTES_A_DAY)]
    return [{ entry, side, quantity, minute, ...besides(place, { entry, quantity, now }) }]
  })
}

const MEASURED: Readonly<Record<ReadingQuantity, 'temperature' | 'residual' | undefined>> = {
  'hot-temperature': 'temperature',
  'cold-temperature': 'temperature',
  'free-chlorine': 'residual',
  'total-chlorine': 'residual',
  ph: undefined,
}

const MINUTES_A_DAY = 1440

/** The side is in the name of a temperature; a residual says its circuit, or was read at the cold tap. */
function sideOf({ body }: EffectiveEntry<'reading.taken'>): Side {
  if (body.quantity === 'hot-temperature') return 'hot'
  if (body.quantity === 'cold-temperature' || body.circuit === undefined) return 'cold'
  return body.circuit === 'cold' ? 'cold' : 'hot'
}

function stopComponent(state: InvestigationState, { body }: EffectiveEntry<'reading.taken'>): string | undefined {
  return state.plan.rounds.get(body.round)?.body.plan.stops.find(({ id }) => id === body.stop)?.component
}

function localMinute({ body, instant, offset }: EffectiveEntry<'reading.taken'>): number {
  const [hours = '0', minutes = '0'] = wallClock({ instant: body.takenAt ?? instant, offset })
    .slice(-5)
    .split(':')
  return Number(hours) * 60 + Number(minutes)
}

function curveOf(
  { series, component }: Of,
  { pipe, quantity }: { pipe: string | undefined; quantity: ShownQuantity },
): Float32Array | undefined {
  return series === undefined
    ? undefined
    : dayCurve(series, { ...(pipe === undefined ? { component } : { pipe }), quantity })
}

function besides(
  place: PlaceConditions,
  given: { entry: EffectiveEntry<'reading.taken'>; quantity: 'temperature' | 'residual'; now: number | undefined },
): Pick<AgainstReading, 'predicted' | 'lowest' | 'highest' | 'within'> {
  const spread = given.quantity === 'temperature' ? place.temperatureC : place.residualMgPerL
  const { reading } = given.entry.body
  const day = { predicted: given.now ?? spread.mean, lowest: spread.min, highest: spread.max }
  return reading.kind === 'value' ? { ...day, within: reading.value >= spread.min && reading.value <= spread.max } : day
}
