import { seededRandom } from '@rillmark/science/random/random-source.ts'
import { buildSystem } from '../building/build-system.ts'
import { type Circuit, isOutlet, type WaterSystem } from '../building/water-system.ts'
import type { QuickDescription } from '../building/quick-description.ts'
import { mergeOverrides } from './merge-overrides.ts'
import type { ConditionsOverrides } from '../conditions/overrides.ts'
import { differenceSd } from './difference-sd.ts'
import type { FieldReading } from './field-reading.ts'
import { uncertainInputs } from './inputs.ts'
import { predictedReadings } from './predicted-readings.ts'
import { readingSd } from './reading-sd.ts'
import { simulateBuilding } from './simulate-building.ts'

/** An invented building with three risers, a return each, one heater and few outlets. */
const building = (
  floors: number,
  outlets: { shower?: number; 'basin-tap'?: number },
  mixing: QuickDescription['mixing'] = 'none',
): WaterSystem =>
  buildSystem({
    name: 'Three risers',
    floors,
    plant: { position: 'bottom' },
    risers: ['A', 'B', 'C'],
    outlets,
    heaters: [{ kind: 'storage', volumeL: 300, setpointC: 60 }],
    recirculation: 'per-riser',
    mixing,
    supply: { disinfectant: 'free-chlorine', residualMgPerL: 0.6, temperatureC: 14, pH: 7.6 },
  })

export const threeRisers = building(2, { shower: 1, 'basin-tap': 1 })
/** The same with one tap a riser, for tests that run it a thousand times. */
export const threeTaps = building(1, { 'basin-tap': 1 })
/** One mixing valve for all of them, behind the heater. */
export const mixedForAll = building(1, { 'basin-tap': 1 }, 'central')
/** A mixing valve at every shower and tap. */
export const mixedAtEach = building(2, { shower: 1, 'basin-tap': 1 }, 'point-of-use')

/**
 * Coarse enough for tests: what is fitted is made with the same steps. As many days as a fit runs: behind a mixing valve the second day is still
 * ragged, by up to 2.5 K, and a fit along slopes can't follow that.
 */
export const coarse = simulateBuilding({ seed: 1, stepMinutes: 60 })

type Place = Pick<FieldReading, 'component' | 'circuit' | 'quantity' | 'seconds'>

/** A round as it is usually made: heater, returns, supply, hot and cold of every outlet, early and cleared, residuals. */
export function usualRound(system: WaterSystem): FieldReading[] {
  const outlets = system.components.filter(isOutlet)
  const comes = (id: string, water: Circuit): boolean =>
    system.pipes.some(({ from, to, circuit }) => circuit === water && (from === id || to === id))
  const warm = (id: string): Circuit => (comes(id, 'tempered') ? 'tempered' : 'hot')
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
      { component, circuit: warm(component), quantity: 'temperature', seconds: 30 },
      { component, circuit: warm(component), quantity: 'temperature', seconds: 60 },
      ...(comes(component, 'cold')
        ? [
            { component, circuit: 'cold', quantity: 'temperature', seconds: 120 } as const,
            { component, circuit: 'cold', quantity: 'residual' } as const,
          ]
        : []),
    ]),
  ]
  return places.map((place) => {
    const id = [place.component, place.circuit, place.quantity, place.seconds]
      .filter((one) => one !== undefined)
      .join(' ')
    return { ...place, id, value: 0, sd: readingSd({ ...place, value: 0.5 }) }
  })
}

/** Standard normal numbers from a fixed seed. */
export function normals(seed: number): () => number {
  const source = seededRandom(seed)
  return () => source.normal()
}

/** Values of the inputs as they might truly be, drawn from what is believed of them. */
export function truthOf(
  system: WaterSystem,
  { readings, normal }: { readings: readonly FieldReading[]; normal: () => number },
) {
  const inputs = uncertainInputs(system, readings)
  const values = inputs.map(({ scale, prior: { centre, sd } }) =>
    scale === 'log' ? centre * Math.exp(sd * normal()) : centre + sd * normal(),
  )
  return {
    inputs,
    values,
    overrides: mergeOverrides(inputs.map((input, j) => input.override(values[j] ?? input.start))),
  }
}

interface Measured {
  /** As the building truly is. */
  truly: { system?: WaterSystem; overrides: ConditionsOverrides }
  readings: readonly FieldReading[]
  normal: () => number
}

/** What would be measured in a building that is truly like that, with the noise a fit supposes. */
export function measured(described: WaterSystem, { truly, readings, normal }: Measured): FieldReading[] {
  const system = truly.system ?? described
  const [before, now] = [coarse(described, {}), coarse(system, truly.overrides)]
  if (before === undefined || now === undefined) throw new Error('nothing can be said of the building')
  const spread = predictedReadings(before, { system: described, readings })
  return predictedReadings(now, { system, readings }).map((one, i) => {
    const [reading, usual] = [readings[i], spread[i]]
    if (one === undefined || reading === undefined || usual === undefined) throw new Error('no such water')
    return { ...reading, value: one.value + differenceSd(reading, usual) * normal() }
  })
}
