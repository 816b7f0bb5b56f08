import { buildGraph } from '../building/graph.ts'
import { returnLegs } from '../building/graph-questions.ts'
import { isHeater, isOutlet, type WaterSystem } from '../building/water-system.ts'
import type { Conditions, ConditionsSeries, PlaceConditions } from './conditions.ts'
import {
  type DayFigures,
  MOST_ASSUMPTIONS,
  MOST_PREDICTED_PLACES,
  type PredictedPlace,
  type Prediction,
} from './prediction.ts'
import type { Sensitivity } from './sensitivity.ts'

/** What a prediction is made of. */
export interface Predicted {
  readonly system: WaterSystem
  /** the entry that last shaped the system, from `systemEntryOf` */
  readonly systemEntry: string
  readonly conditions: Conditions
  /** the entry of the fit whose values it was simulated with */
  readonly fit?: string | undefined
  /** curves of the day, for the hour at which water is warmest */
  readonly series?: ConditionsSeries | undefined
  /** what the guesses do to it, if that was worked out */
  readonly sensitivity?: Sensitivity | undefined
  readonly note?: string | undefined
}

/**
 * The conditions as they go into the record: outlets by the water that arrives on each side, heaters and tanks, and the end of every
 * return, rounded to what a thermometer or a clock could tell. Of a building too large for one entry the places most favourable to
 * growth are kept, and the entry says how many are missing.
 */
export function predictionOf(predicted: Predicted): Prediction {
  const { systemEntry, conditions, fit, note } = predicted
  const places = predictedPlaces(predicted)
  const kept =
    places.length <= MOST_PREDICTED_PLACES
      ? places
      : places.toSorted((a, b) => b.growthIndex - a.growthIndex).slice(0, MOST_PREDICTED_PLACES)
  return {
    system: systemEntry,
    ...(fit === undefined ? {} : { fit }),
    seed: conditions.seed,
    assumptions: conditions.assumptions
      .slice(0, MOST_ASSUMPTIONS)
      .map(({ parts: _parts, text, source, ...rest }) => ({ ...rest, text: cut(text), source: cut(source) })),
    cannotSay: conditions.cannotSay
      .slice(0, MOST_ASSUMPTIONS)
      .map(({ at, why }) => ({ at: at.slice(0, 200), why: cut(why) })),
    cautions: conditions.cautions.slice(0, MOST_ASSUMPTIONS).map(cut),
    balance: { ...conditions.balance },
    daysUntilRepeating: conditions.daysUntilRepeating,
    repeats: conditions.repeats,
    places: kept,
    placesLeftOut: places.length - kept.length,
    ...(conditions.residualUnknown === true ? { residualUnknown: true as const } : {}),
    effects: effectsOf(predicted.sensitivity),
    ...(note === undefined ? {} : { note }),
  }
}

/** Of each output the inputs that move it most. */
const EFFECTS_AN_OUTPUT = 4

function effectsOf(sensitivity: Sensitivity | undefined): Prediction['effects'] {
  if (sensitivity === undefined) return []
  const end = (value: number | undefined): number | undefined => (value === undefined ? undefined : rounded(value, 3))
  return Object.values(sensitivity.effects).flatMap((effects) =>
    effects
      .filter(({ spread }) => spread > 0)
      .slice(0, EFFECTS_AN_OUTPUT)
      .map(({ input, text, output, baseline, atLower, atUpper }) => ({
        input,
        text: cut(text),
        output,
        baseline: rounded(baseline, 3),
        ...(atLower === undefined ? {} : { atLower: end(atLower) }),
        ...(atUpper === undefined ? {} : { atUpper: end(atUpper) }),
      })),
  )
}

const LONGEST_TEXT = 400
const cut = (text: string): string =>
  text.length > LONGEST_TEXT ? `${text.slice(0, LONGEST_TEXT - 1).trimEnd()}…` : text

/** What is needed for the rows by place and water. */
export interface PlacesPredicted {
  readonly system: WaterSystem
  readonly conditions: Pick<Conditions, 'components' | 'pipes'>
  readonly series?: ConditionsSeries | undefined
}

/** Every water of every outlet, heater, tank and return as a row. */
export function predictedPlaces(predicted: PlacesPredicted): PredictedPlace[] {
  const { system, conditions } = predicted
  const graph = buildGraph(system)
  const warmestOf = warmestMinutes(predicted)
  const outlets = system.components.filter(isOutlet).flatMap(({ id }): PredictedPlace[] => {
    const found = conditions.components[id]
    if (found === undefined) return []
    const arriving = (['cold', 'hot', 'tempered'] as const).flatMap((water) => {
      const place = found.circuits?.[water]
      const pipe = graph.pipesAt(id).find(({ circuit }) => circuit === water)
      return place === undefined ? [] : [rowOf(place, { place: id, water, ...warmestOf(pipe?.id) })]
    })
    return arriving.length > 0 ? arriving : [rowOf(found, { place: id, water: 'spout' })]
  })
  const stores = system.components
    .filter((one) => isHeater(one) || one.kind === 'cold-tank')
    .flatMap(({ id }) => {
      const found = conditions.components[id]
      return found === undefined ? [] : [rowOf(found, { place: id, water: 'stored' as const })]
    })
  const returns = returnLegs(graph).flatMap(({ from, pipes }) => {
    const pipe = pipes.at(-1)
    const found = conditions.pipes[pipe ?? '']
    return found === undefined
      ? []
      : [rowOf(found.end, { place: from, water: 'hot-return' as const, ...warmestOf(pipe) })]
  })
  const once = new Map([...stores, ...returns, ...outlets].map((row) => [JSON.stringify([row.place, row.water]), row]))
  return [...once.values()]
}

type Head = Pick<PredictedPlace, 'place' | 'water' | 'warmestMinute'>

const rowOf = (found: PlaceConditions, head: Head): PredictedPlace => ({
  ...head,
  temperatureC: figures(found.temperatureC, 1),
  ageHours: figures(found.ageHours, 2),
  residualMgPerL: figures(found.residualMgPerL, 3),
  bandHours: rounded(found.hoursInGrowthBand, 2),
  standingHours: rounded(found.longestStagnationHours, 2),
  growthIndex: rounded(found.growthIndex, 3),
  ...(found.neverMoves === true ? { neverMoves: true as const } : {}),
})

const rounded = (value: number, decimals: number): number => Number(value.toFixed(decimals)) + 0

const figures = ({ mean, min, max }: { mean: number; min: number; max: number }, decimals: number): DayFigures => [
  rounded(mean, decimals),
  rounded(min, decimals),
  rounded(max, decimals),
]

const MINUTES_A_DAY = 1440

/** By pipe: the middle of the span of the day in which the water at its end is warmest; nothing where no curves were kept. */
function warmestMinutes({ series }: PlacesPredicted): (pipe: string | undefined) => Pick<Head, 'warmestMinute'> {
  if (series === undefined) return () => ({})
  const rows = new Map(series.pipeIds.map((id, row) => [id, row]))
  const { slots } = series
  const curves = series.pipes.temperatureC
  return (pipe) => {
    const row = rows.get(pipe ?? '')
    if (row === undefined) return {}
    const day = curves.subarray(row * slots, (row + 1) * slots)
    const at = day.reduce((best, value, slot) => (value > (day[best] ?? value) ? slot : best), 0)
    return { warmestMinute: Math.min(MINUTES_A_DAY - 1, Math.floor(((at + 0.5) * MINUTES_A_DAY) / slots)) }
  }
}
