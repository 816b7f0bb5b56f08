import { buildGraph } from '../building/graph.ts'
import { returnLegs } from '../building/graph-questions.ts'
import type { WaterSystem } from '../building/water-system.ts'
import type { Spread } from '@rillmark/science/network/day-result.ts'
import type { ComponentConditions, Conditions, PipeConditions, PlaceConditions } from './conditions.ts'
import type { DayFigures, PredictedPlace, Prediction } from './prediction.ts'

/** A recorded prediction as conditions again, as far as it was kept, so that lists and the diagram read it like a fresh one. */
export function recalledConditions(system: WaterSystem, prediction: Prediction): Conditions {
  const { assumptions, cannotSay, cautions, balance, daysUntilRepeating, repeats, seed } = prediction
  return {
    ...recalledPlaces(system, prediction.places),
    assumptions: assumptions.map((one) => ({ ...one, parts: [] })),
    cannotSay: cannotSay.map((one) => ({ ...one, needs: '' })),
    cautions,
    balance,
    daysUntilRepeating,
    repeats,
    seed,
    ...(prediction.residualUnknown === true ? { residualUnknown: true as const } : {}),
  }
}

/** Rows by place as conditions by component and, of returns, by their last pipe. */
export function recalledPlaces(
  system: WaterSystem,
  places: readonly PredictedPlace[],
): Pick<Conditions, 'components' | 'pipes'> {
  const components: Record<string, ComponentConditions> = {}
  const pipes: Record<string, PipeConditions> = {}
  const lastPipes = new Map(returnLegs(buildGraph(system)).map(({ from, pipes: leg }) => [from, leg.at(-1)]))
  for (const row of places) {
    const place = placeOf(row)
    const pipe = lastPipes.get(row.place)
    if (row.water === 'hot-return') {
      if (pipe !== undefined) pipes[pipe] = { ...STILL, end: place }
    } else if (row.water === 'stored' || row.water === 'spout') components[row.place] = place
    else {
      const known: ComponentConditions = components[row.place] ?? place
      components[row.place] = { ...known, circuits: { ...known.circuits, [row.water]: place } }
    }
  }
  return { components, pipes }
}

/** Flows are not kept in the record. */
const NOTHING: Spread = { mean: 0, min: 0, max: 0 }
const STILL = { flowLPerMin: NOTHING, velocityMPerS: NOTHING, heatLossW: 0 }

const placeOf = (row: PredictedPlace): PlaceConditions => ({
  temperatureC: spreadOf(row.temperatureC),
  ageHours: spreadOf(row.ageHours),
  residualMgPerL: spreadOf(row.residualMgPerL),
  hoursInGrowthBand: row.bandHours,
  longestStagnationHours: row.standingHours,
  growthIndex: row.growthIndex,
  ...(row.neverMoves === true ? { neverMoves: true as const } : {}),
})

const spreadOf = ([mean, min, max]: DayFigures): Spread => ({ mean, min, max })
