import { isOutlet } from '../building/water-system.ts'
import type { PredictedPlace } from '../conditions/prediction.ts'
import { type RankedPlace, type Ranking, rankPlaces } from '../conditions/rankings.ts'
import { recalledPlaces } from '../conditions/recalled-conditions.ts'
import { showPredicted } from '../conditions/shown-quantity.ts'
import { GROWTH_BAND } from '../findings/temperature-band.ts'
import { capital } from '../units/capital.ts'
import { because, type PlanContext, type Wish } from './plan-context.ts'
import { PLANNING } from './planning.ts'

/** In the order of weight: what grows best first. */
const ASKED: readonly Ranking[] = ['growth-band', 'warmest-cold', 'coolest-hot', 'no-residual', 'oldest', 'standing']

/**
 * The outlets where the simulation of the building expects most trouble, a few from each of its lists. Only what passes the mark of
 * its list is a reason: the warmest cold water of a building whose cold water is cold is none.
 */
export function predictedWishes(context: PlanContext): Wish[] {
  const { predictions, system } = context.input
  if (predictions === undefined) return []
  if (predictions.stale === true) {
    context.notes.push('The building changed after it was last simulated: that prediction is no reason in this plan.')
    return []
  }
  const { places, residualUnknown } = predictions
  const conditions = { ...EMPTY, residualUnknown, ...recalledPlaces(system, places) }
  return ASKED.flatMap((ranking) => {
    const rows = rankPlaces({ system, conditions, ranking })
    const outlets = rows.filter(({ id, counted }) => {
      const component = context.graph.components.get(id)
      return counted && component !== undefined && isOutlet(component)
    })
    return outlets.slice(0, PLANNING.perPredictedList).flatMap((row, step) => wishOf(context, { ranking, row, step }))
  })
}

/** Rankings read places only. */
const EMPTY = {
  balance: { massErrorFraction: 0, energyErrorFraction: 0 },
  daysUntilRepeating: 0,
  repeats: true,
  assumptions: [],
  cannotSay: [],
  cautions: [],
  seed: 0,
}

function wishOf(
  context: PlanContext,
  { ranking, row, step }: { ranking: Ranking; row: RankedPlace; step: number },
): Wish[] {
  const component = context.graph.components.get(row.id)
  if (component === undefined) return []
  const { places = [], entry } = context.input.predictions ?? {}
  const found = places.find(
    ({ place, water }) => place === row.id && (row.side === 'cold') === (water === 'cold') && water !== 'spout',
  )
  const text = `${wordsOf(ranking, { row, found })} (simulated, a screening model).`
  return [{ component, reason: because('predicted', { text, evidence: [entry ?? component.id] }), step }]
}

function wordsOf(ranking: Ranking, { row, found }: { row: RankedPlace; found: PredictedPlace | undefined }): string {
  const side = `${row.side} water`
  const degrees = (value: number): string => showPredicted(value, { quantity: 'temperature' }).words
  const hours = (value: number): string => showPredicted(value, { quantity: 'age' }).words
  switch (ranking) {
    case 'warmest-cold':
      return `Among the warmest cold water: never below ${degrees(row.value)}, up to ${degrees(row.range?.upper ?? row.value)}${partOfDay(found)}`
    case 'coolest-hot':
      return `Among the coolest hot water: never above ${degrees(row.value)}`
    case 'oldest':
      return `Among the oldest ${side}: ${row.atLeast === true ? 'at least ' : ''}${hours(row.value)}`
    case 'no-residual':
      return `No residual left in its ${side}`
    case 'growth-band':
      return `${capital(side)} between ${GROWTH_BAND.from} and ${GROWTH_BAND.below} °C for ${hours(row.value)} of the day`
    case 'standing':
      return `${capital(side)} stands all day`
  }
}

const MINUTES_A_QUARTER = 360
const PARTS = [' at night', ' in the morning', ' in the afternoon', ' in the evening'] as const

/** When the water is warmest, where that is known. */
const partOfDay = (found: PredictedPlace | undefined): string =>
  found?.warmestMinute === undefined ? '' : (PARTS[Math.floor(found.warmestMinute / MINUTES_A_QUARTER)] ?? '')
