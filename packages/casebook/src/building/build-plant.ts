import { ASSUMED, assumedPipe } from './assumptions.ts'
import type { BuildInput, SystemParts } from './build-parts.ts'
import { hotRisers } from './build-parts.ts'
import type { QuickHeater } from './quick-description.ts'
import type { Circuit, Component } from './water-system.ts'

/** Supply entry, cold tank, heaters, mixing valve and pump, and the pipes that join them. */
export function buildPlant(input: BuildInput): SystemParts {
  const { description } = input
  const heaters = hotRisers(input).length > 0 ? (description.heaters ?? []) : []
  const parts: SystemParts = { components: [], pipes: [] }
  const plant = plantMaker(input, parts)
  plant.add({ id: 'entry', kind: 'supply-entry', label: 'Supply', provenance: told('kind') })
  const tank = description.coldTank
  if (tank !== undefined) {
    const volumeL = tank.volumeL ?? ASSUMED.coldTankL
    const provenance = tank.volumeL === undefined ? told('kind') : told('kind', 'volumeL')
    plant.add({ id: 'cold-tank', kind: 'cold-tank', label: 'Cold tank', volumeL, provenance })
  }
  plant.add({ id: 'cold-plant', kind: 'junction' })
  if (tank !== undefined) plant.join('entry', 'cold-tank', 'cold')
  plant.join(tank === undefined ? 'entry' : 'cold-tank', 'cold-plant', 'cold')
  if (heaters.length > 0) addHeaters({ input, plant, heaters })
  if (heaters.length > 0 && description.recirculation !== 'none') addReturn({ input, plant, heaters })
  return parts
}

interface PlantMaker {
  add: (component: Component) => void
  join: (from: string, to: string, circuit: Circuit) => void
}

function plantMaker({ description, shape, outlets }: BuildInput, parts: SystemParts): PlantMaker {
  return {
    add: (component) => {
      const { provenance, ...facts } = component
      parts.components.push({
        ...facts,
        floor: shape.plantFloor,
        provenance: { default: 'guessed', ...provenance },
      })
    },
    join: (from, to, circuit) => {
      const lengthM = from === 'entry' ? ASSUMED.entryToPlantM : ASSUMED.plantPipeM
      const size = assumedPipe(description, circuit === 'hot-return' ? 1 : outlets.length)
      const id = `${circuit}-${from}-to-${to}`
      parts.pipes.push({ id, from, to, circuit, lengthM, ...size, provenance: { default: 'guessed' } })
    },
  }
}

const told = (...facts: string[]): Record<string, 'told'> =>
  Object.fromEntries(facts.map((fact) => [fact, 'told' as const]))

interface HeaterInput {
  input: BuildInput
  plant: PlantMaker
  heaters: readonly QuickHeater[]
}

function addHeaters({ input, plant, heaters }: HeaterInput): void {
  heaters.forEach((heater, index) => plant.add(heaterComponent(heater, { index, of: heaters.length })))
  plant.add({ id: 'hot-plant', kind: 'junction' })
  heaters.forEach((_, index) => {
    plant.join('cold-plant', heaterId(index), 'cold')
    plant.join(heaterId(index), 'hot-plant', 'hot')
  })
  if (input.description.mixing !== 'central') return
  const setpointC = ASSUMED.temperedC
  plant.add({
    id: 'mixing-valve',
    kind: 'mixing-valve',
    label: 'Mixing valve',
    setpointC,
    provenance: told('kind'),
  })
  plant.join('hot-plant', 'mixing-valve', 'hot')
  plant.join('cold-plant', 'mixing-valve', 'cold')
}

const heaterId = (index: number): string => `heater-${index + 1}`

function heaterComponent(heater: QuickHeater, place: { index: number; of: number }): Component {
  const facts = ['kind', ...Object.keys(heater)]
  const label = heater.label ?? (place.of === 1 ? 'Heater' : `Heater ${place.index + 1}`)
  return {
    id: heaterId(place.index),
    kind: heater.kind === 'storage' ? 'storage-heater' : 'instant-heater',
    label,
    setpointC: heater.setpointC ?? ASSUMED.storageSetpointC,
    ...(heater.kind === 'storage' ? { volumeL: heater.volumeL ?? ASSUMED.storageHeaterL } : {}),
    provenance: told(...facts),
  }
}

function addReturn({ input, plant, heaters }: HeaterInput): void {
  const loops = input.description.recirculation === 'whole' ? 1 : hotRisers(input).length
  const flowLPerMin = loops * ASSUMED.flowPerRiserLPerMin
  plant.add({ id: 'return-pump', kind: 'pump', label: 'Return pump', flowLPerMin })
  plant.add({ id: 'return-plant', kind: 'junction' })
  plant.join('return-pump', 'return-plant', 'hot-return')
  heaters.forEach((_, index) => plant.join('return-plant', heaterId(index), 'hot-return'))
}
