import { buildSystem } from '../building/build-system.ts'
import { isOutlet, type WaterSystem } from '../building/water-system.ts'
import type { FieldReading } from './field-reading.ts'
import { readingSd } from './reading-sd.ts'

/** A small invented building: three risers with a return each, two floors, one heater. */
export const threeRisers: WaterSystem = buildSystem({
  name: 'Three risers',
  floors: 2,
  plant: { position: 'bottom' },
  risers: ['A', 'B', 'C'],
  outlets: { shower: 1, 'basin-tap': 1 },
  heaters: [{ kind: 'storage', volumeL: 300, setpointC: 60 }],
  recirculation: 'per-riser',
  mixing: 'none',
  supply: { disinfectant: 'free-chlorine', residualMgPerL: 0.6, temperatureC: 14, pH: 7.6 },
})

type Place = Pick<FieldReading, 'component' | 'circuit' | 'quantity'>

/** A round as it is usually made: heater, returns, supply, hot and cold of every outlet, residuals at some. */
export function usualRound(system: WaterSystem = threeRisers): FieldReading[] {
  const outlets = system.components.filter(isOutlet)
  const risers = [...new Set(outlets.flatMap(({ riser }) => riser ?? []))]
  const places: Place[] = [
    { component: 'heater-1', circuit: 'hot', quantity: 'temperature' },
    { component: 'entry', circuit: 'cold', quantity: 'temperature' },
    { component: 'entry', circuit: 'cold', quantity: 'residual' },
    ...risers.map(
      (riser): Place => ({
        component: `return-main-${riser.toLowerCase()}`,
        circuit: 'hot-return',
        quantity: 'temperature',
      }),
    ),
    ...outlets.flatMap(({ id: component }): Place[] => [
      { component, circuit: 'hot', quantity: 'temperature' },
      { component, circuit: 'cold', quantity: 'temperature' },
      { component, circuit: 'cold', quantity: 'residual' },
    ]),
  ]
  return places.map((place, index) => ({
    ...place,
    id: String(index + 1),
    value: 0,
    sd: readingSd({ ...place, value: 0.5 }),
  }))
}
