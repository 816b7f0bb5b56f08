import display from '@rillmark/reference/conditions/display.json' with { type: 'json' }
import explanation from '@rillmark/reference/conditions/explanation.json' with { type: 'json' }
import { isOutlet, type WaterSystem } from '../building/water-system.ts'
import { GROWTH_BAND } from '../findings/temperature-band.ts'
import { FIELDWORK, thresholdFor } from '../fieldwork/figures.ts'
import { type DisplayUnits, METRIC_UNITS } from '../units/display-units.ts'
import { showTemperature } from '../units/display.ts'
import type { Conditions, PlaceConditions } from './conditions.ts'

export interface SimulatedSystem {
  readonly system: WaterSystem
  readonly conditions: Conditions
}

export type Water = 'cold' | 'hot' | 'tempered'

/** One water of one outlet, before and after; undefined where it is not there. */
export interface PlaceDifference {
  readonly id: string
  readonly water: Water
  readonly before?: PlaceConditions | undefined
  readonly after?: PlaceConditions | undefined
}

/** What outlets are counted by. Limits of temperature are asked for, since criteria differ. */
export type Counted =
  | 'cold-warm'
  | 'cold-never-cold'
  | 'hot-never-hot'
  | 'no-residual'
  | 'growth-band'
  | 'favourable'
  | 'stands-all-day'

export interface CountDifference {
  readonly counted: Counted
  readonly words: string
  readonly before: number
  readonly after: number
}

/** What cold and hot water are held against; those of readings at outlets unless told otherwise. */
export interface ConditionLimits {
  readonly coldBelowC: number
  readonly hotFromC: number
}

export interface Comparison {
  readonly places: readonly PlaceDifference[]
  readonly counts: readonly CountDifference[]
}

export interface CompareOptions {
  readonly limits?: Partial<ConditionLimits>
  readonly units?: DisplayUnits
}

/**
 * The conditions of two simulations side by side: every water of every outlet, and how many outlets pass each mark before and after.
 * Both must have been run with the same seed, else the difference is partly that of the draws.
 * @throws RangeError when the seeds differ
 */
export function compareConditions(
  { before, after }: { readonly before: SimulatedSystem; readonly after: SimulatedSystem },
  { limits, units = METRIC_UNITS }: CompareOptions = {},
): Comparison {
  if (before.conditions.seed !== after.conditions.seed)
    throw new RangeError(
      `Cannot compare conditions because their draws differ: got seeds ${before.conditions.seed} and ${after.conditions.seed}`,
    )
  const marks = marksOf({ ...LIMITS, ...limits }, units)
  const [was, is] = [watersOf(before), watersOf(after)]
  const keys = [...new Set([...was.keys(), ...is.keys()])]
  return {
    places: keys.flatMap((key) => {
      const head = was.get(key) ?? is.get(key)
      return head === undefined
        ? []
        : [{ id: head.id, water: head.water, before: was.get(key)?.place, after: is.get(key)?.place }]
    }),
    counts: marks.map(({ counted, words, passes }) => ({
      counted,
      words,
      before: outletsThat(was, passes),
      after: outletsThat(is, passes),
    })),
  }
}

const LIMITS: ConditionLimits = {
  coldBelowC: thresholdFor('cold-temperature').temperatureC,
  hotFromC: thresholdFor('hot-temperature').temperatureC,
}

interface WaterOfPlace {
  readonly id: string
  readonly water: Water
  readonly place: PlaceConditions
}

function watersOf({ system, conditions }: SimulatedSystem): Map<string, WaterOfPlace> {
  const found = new Map<string, WaterOfPlace>()
  for (const { id } of system.components.filter(isOutlet))
    for (const water of ['cold', 'hot', 'tempered'] as const) {
      const place = conditions.components[id]?.circuits?.[water]
      if (place !== undefined) found.set(JSON.stringify([id, water]), { id, water, place })
    }
  return found
}

type Passes = (one: WaterOfPlace) => boolean

const outletsThat = (waters: ReadonlyMap<string, WaterOfPlace>, passes: Passes): number =>
  new Set([...waters.values()].filter(passes).map(({ id }) => id)).size

interface CountMark {
  readonly counted: Counted
  readonly words: string
  readonly passes: Passes
}

function marksOf({ coldBelowC, hotFromC }: ConditionLimits, units: DisplayUnits): CountMark[] {
  const [cold, hot] = [coldBelowC, hotFromC].map((limit) => showTemperature(limit, units).words)
  const band = display.counted.growthBandFromHours.value
  const growth = explanation.figures.favourableFrom.value
  return [
    {
      counted: 'cold-warm',
      words: `cold water of ${cold} or more on average`,
      passes: ({ water, place }) => water === 'cold' && place.temperatureC.mean >= coldBelowC,
    },
    {
      counted: 'cold-never-cold',
      words: `cold water that never comes below ${cold}, however long it runs`,
      passes: ({ water, place }) => water === 'cold' && place.temperatureC.min >= coldBelowC,
    },
    {
      counted: 'hot-never-hot',
      words: `hot water that never reaches ${hot}`,
      passes: ({ water, place }) => water === 'hot' && place.temperatureC.max < hotFromC,
    },
    {
      counted: 'no-residual',
      words: `less than ${FIELDWORK.coarsestStepMgPerL} mg/L of disinfectant on average, on one side or both`,
      passes: ({ place }) => place.residualMgPerL.mean < FIELDWORK.coarsestStepMgPerL,
    },
    {
      counted: 'growth-band',
      words: `${band} h a day or more between ${showTemperature(GROWTH_BAND.from, units).words} and ${showTemperature(GROWTH_BAND.below, units).words}`,
      passes: ({ place }) => place.hoursInGrowthBand >= band,
    },
    {
      counted: 'favourable',
      words: `a growth index of ${growth} or more`,
      passes: ({ place }) => place.growthIndex >= growth,
    },
    {
      counted: 'stands-all-day',
      words: 'water that nothing moves all day',
      passes: ({ place }) => place.longestStagnationHours >= display.counted.standingFromHours.value,
    },
  ]
}
