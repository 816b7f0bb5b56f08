import { buildGraph } from '../building/graph.ts'
import { type Circuit, isOutlet, type WaterSystem } from '../building/water-system.ts'
import type { ComponentConditions, Conditions, PipeConditions, PlaceConditions } from './conditions.ts'

/** Figures of one water by hand: single numbers stand for the mean, the lowest and the highest alike. */
export interface Figures {
  readonly temperatureC?: number | readonly [number, number, number]
  readonly ageHours?: number | readonly [number, number, number]
  readonly residualMgPerL?: number | readonly [number, number, number]
  readonly band?: number
  readonly standing?: number
  readonly growth?: number
  readonly neverMoves?: true
}

const spread = (given: number | readonly [number, number, number]) => {
  const [mean, min, max] = typeof given === 'number' ? [given, given, given] : given
  return { mean, min, max }
}

export const placeOf = (given: Figures): PlaceConditions => ({
  temperatureC: spread(given.temperatureC ?? 20),
  ageHours: spread(given.ageHours ?? 1),
  residualMgPerL: spread(given.residualMgPerL ?? 0.5),
  hoursInGrowthBand: given.band ?? 0,
  longestStagnationHours: given.standing ?? 1,
  growthIndex: given.growth ?? 0.05,
  ...(given.neverMoves === undefined ? {} : { neverMoves: true }),
})

/** Plain figures for a circuit where nothing was set by hand. */
const PLAIN: Readonly<Record<Circuit, Figures>> = {
  cold: { temperatureC: [16, 14, 19], ageHours: 3, residualMgPerL: 1.2 },
  hot: { temperatureC: [50, 24, 58], ageHours: 6, residualMgPerL: 0.4, band: 4, growth: 0.2 },
  tempered: { temperatureC: [38, 24, 40], ageHours: 6, residualMgPerL: 0.3, band: 12, growth: 0.4 },
  'hot-return': { temperatureC: [55, 54, 56], ageHours: 8, residualMgPerL: 0.3 },
}

/** Conditions of a system set by hand: what is not named by `component/circuit`, `component` or `pipe` gets plain figures. */
export function conditionsByHand(system: WaterSystem, set: Readonly<Record<string, Figures>> = {}): Conditions {
  const graph = buildGraph(system)
  const components = Object.fromEntries(
    system.components.map((component): [string, ComponentConditions] => {
      const { id } = component
      const circuits = new Set(graph.pipesAt(id).map(({ circuit }) => circuit))
      const arriving = (['cold', 'hot', 'tempered'] as const)
        .filter((circuit) => circuits.has(circuit))
        .map((circuit) => [circuit, placeOf({ ...PLAIN[circuit], ...set[`${id}/${circuit}`] })] as const)
      const own = placeOf({ ...PLAIN[circuits.has('hot') ? 'hot' : 'cold'], ...set[id] })
      return [id, isOutlet(component) ? { ...own, circuits: Object.fromEntries(arriving), drawnLPerDay: 20 } : own]
    }),
  )
  const pipes = Object.fromEntries(
    system.pipes.map((pipe): [string, PipeConditions] => [
      pipe.id,
      {
        flowLPerMin: { mean: 1, min: 0, max: 9 },
        velocityMPerS: { mean: 0.05, min: 0, max: 0.9 },
        heatLossW: 5,
        end: placeOf({ ...PLAIN[pipe.circuit], ...set[pipe.id] }),
      },
    ]),
  )
  return {
    components,
    pipes,
    balance: { massErrorFraction: 1e-12, energyErrorFraction: 2e-6 },
    daysUntilRepeating: 3,
    repeats: true,
    assumptions: [
      {
        id: 'ambientC',
        text: 'The air around pipes is 22 °C where nothing else is described.',
        value: 22,
        unit: '°C',
        range: { lower: 18, upper: 27 },
        count: system.pipes.length,
        parts: system.pipes.slice(0, 3).map(({ id }) => id),
        source: 'common practice, no source',
      },
    ],
    cannotSay: [],
    cautions: ['Screening model.'],
    seed: 1,
  }
}
