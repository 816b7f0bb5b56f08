import type { Circuit, Component, Pipe, WaterSystem } from '../building/water-system.ts'

type Facts<T> = Partial<Omit<T, 'id'>>

/** Every fact of a pipe that a simulation asks for, so that nothing is filled in for it. */
const FULL_PIPE = {
  lengthM: 10,
  standard: 'en-1057',
  size: '22x1',
  insulationMm: 13,
  insulationConductivityWPerMK: 0.04,
  ambientC: 22,
} as const

/** A component written `id kind`. */
export function part(written: string, facts: Facts<Component> = {}): Component {
  const [id = '', kind] = written.split(' ')
  return { id, kind: kind as Component['kind'], ...facts }
}

/** A pipe written `circuit from>to`, in full unless its facts say otherwise. */
export function pipe(written: string, facts: Facts<Pipe> = {}): Pipe {
  const [circuit, ends = ''] = written.split(' ')
  const [from = '', to = ''] = ends.split('>')
  return { id: written, from, to, circuit: circuit as Circuit, ...FULL_PIPE, ...facts }
}

export const systemOf = (components: Component[], pipes: Pipe[]): WaterSystem => ({
  format: 'rillmark/water-system@1',
  name: 'small',
  ambientC: 22,
  supply: { temperatureC: 14, pH: 7.5, disinfectant: { kind: 'free-chlorine', residualMgPerL: 0.8 } },
  decay: { bulkPerHour: 0.02, wallMPerHour: 0.0005, referenceC: 20, activationKJPerMol: 50 },
  components,
  pipes,
})

export const ALWAYS = (flowLPerMin: number): Component['use'] => ({ pattern: 'constant', flowLPerMin })

const HEATER = { volumeL: 200, setpointC: 60, heatLossWPerK: 1.5, ambientC: 22 } as const

/** One heater, one riser of two floors with a tap on each, and a return from the top of each of two risers. */
export function twoReturns(returns: { a?: Facts<Pipe>; b?: Facts<Pipe>; both?: Facts<Pipe> } = {}): WaterSystem {
  return systemOf(
    [
      part('entry supply-entry'),
      part('heater storage-heater', HEATER),
      part('main junction'),
      part('top-a junction'),
      part('top-b junction'),
      part('meet junction'),
      part('tap-a basin-tap', { use: ALWAYS(0.5) }),
      part('tap-b basin-tap', { use: ALWAYS(0.5) }),
    ],
    [
      pipe('cold entry>heater'),
      pipe('hot heater>main'),
      pipe('hot main>top-a'),
      pipe('hot main>top-b'),
      pipe('hot top-a>tap-a'),
      pipe('hot top-b>tap-b'),
      pipe('hot-return top-a>meet', { recirculationLPerMin: 3, ...returns.a }),
      pipe('hot-return top-b>meet', { recirculationLPerMin: 2, ...returns.b }),
      pipe('hot-return meet>heater', { ...returns.both }),
    ],
  )
}

/** The same with a pump where the returns meet, and flows it decides. */
export function pumped(pump: Facts<Component> = {}): WaterSystem {
  const system = twoReturns({ a: { recirculationLPerMin: undefined }, b: { recirculationLPerMin: undefined } })
  return {
    ...system,
    components: system.components.map((one) => (one.id === 'meet' ? { ...one, ...pump, kind: 'pump' } : one)),
  }
}

/** The same with the pump behind the heater, on the hot side; one of its pipes is drawn against the flow. */
export function pushed(): WaterSystem {
  const none = { recirculationLPerMin: undefined }
  const { components, pipes, ...system } = twoReturns({ a: none, b: none })
  const rest = pipes.filter(({ id }) => id !== 'hot heater>main')
  return {
    ...system,
    components: [...components, part('push pump')],
    pipes: [...rest, pipe('hot heater>push'), pipe('hot main>push')],
  }
}

/** Tempered water that goes round: mixing valve, one tap, and a return to where the facts say. */
export function tempered(returnTo: 'heater' | 'valve'): WaterSystem {
  return systemOf(
    [
      part('entry supply-entry'),
      part('cold-plant junction'),
      part('heater storage-heater', HEATER),
      part('valve mixing-valve', { setpointC: 43 }),
      part('top junction'),
      part('warm-tap shower', {
        use: { pattern: 'schedule', draws: [{ at: '07:00', minutes: 10, flowLPerMin: 8 }] },
      }),
      part('cold-tap drinking-fountain', { use: { pattern: 'unused' } }),
    ],
    [
      pipe('cold entry>cold-plant'),
      pipe('cold cold-plant>heater'),
      pipe('cold cold-plant>valve'),
      pipe('cold cold-plant>cold-tap'),
      pipe('hot heater>valve'),
      pipe('tempered valve>top'),
      pipe('tempered top>warm-tap'),
      pipe(`hot-return top>${returnTo}`, { recirculationLPerMin: 4 }),
    ],
  )
}

/** Water that is warmed and runs through one pipe to a tap that never closes. */
export function straight(hotPipe: Facts<Pipe> = {}, flowLPerMin = 1): WaterSystem {
  return systemOf(
    [
      part('entry supply-entry'),
      part('heater instant-heater', { setpointC: 60 }),
      part('tap basin-tap', { use: ALWAYS(flowLPerMin) }),
    ],
    [pipe('cold entry>heater'), pipe('hot heater>tap', hotPipe)],
  )
}
