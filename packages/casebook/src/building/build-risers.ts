import { ASSUMED, assumedHot, assumedPipe, assumedUse } from './assumptions.ts'
import type { BuildInput, PlannedOutlet, SystemParts } from './build-parts.ts'
import { hotRisers } from './build-parts.ts'
import { idPart } from './quick-description.ts'
import type { Circuit, Component, Pipe, Provenance, Use } from './water-system.ts'

/** The main past every riser, the risers, the branches, and the returns where there is recirculation. */
export function buildRisers(input: BuildInput): SystemParts {
  const parts: SystemParts = { components: [], pipes: [] }
  const heated = (input.description.heaters ?? []).length > 0
  const warm: Circuit = input.description.mixing === 'central' ? 'tempered' : 'hot'
  const circuits: Circuit[] = heated ? [warm, 'cold'] : ['cold']
  const tally = new Map<string, number>()
  for (const { riser, floor } of input.outlets)
    for (const key of [riser, placeKey({ riser, floor })]) tally.set(key, (tally.get(key) ?? 0) + 1)
  for (const circuit of circuits) addMain({ input, parts, circuit, tally })
  for (const outlet of input.outlets) addOutlet({ input, parts, outlet, warm: heated ? warm : undefined })
  if (heated && input.description.recirculation !== 'none') addReturns({ input, parts, warm })
  return parts
}

const prefixOf = (circuit: Circuit): string =>
  circuit === 'cold' ? 'cold' : circuit === 'hot-return' ? 'return' : 'hot'
const mainId = (circuit: Circuit, riser: string): string => `${prefixOf(circuit)}-main-${idPart(riser)}`
const placeKey = (place: { riser: string; floor: number }): string => JSON.stringify([place.riser, place.floor])
const floorPart = (floor: number): string => (floor < 0 ? `b${-floor}` : String(floor))

const floorId = (circuit: Circuit, place: { riser: string; floor: number }): string =>
  `${prefixOf(circuit)}-${idPart(place.riser)}-f${floorPart(place.floor)}`

interface CircuitInput {
  input: BuildInput
  parts: SystemParts
  circuit: Circuit
  /** Outlets by riser, and by riser and floor. */
  tally: ReadonlyMap<string, number>
}

function addMain({ input, parts, circuit, tally }: CircuitInput): void {
  const served = circuit === 'cold' ? input.shape.risers.filter((riser) => tally.has(riser)) : hotRisers(input)
  let left = served.reduce((sum, riser) => sum + (tally.get(riser) ?? 0), 0)
  let from = circuit === 'cold' ? 'cold-plant' : circuit === 'hot' ? 'hot-plant' : 'mixing-valve'
  served.forEach((riser, index) => {
    const to = mainId(circuit, riser)
    parts.components.push(junction(to, { riser, floor: input.shape.plantFloor }))
    const lengthM = index === 0 ? ASSUMED.plantToRiserM : ASSUMED.betweenRisersM
    parts.pipes.push(pipe({ from, to, circuit, lengthM, ...assumedPipe(input.description, left) }))
    left -= tally.get(riser) ?? 0
    from = to
    addRiser({ input, parts, circuit, tally }, riser)
  })
}

/** The floors of a riser that carry an outlet of this circuit, from the plant outwards. */
function floorsOn(input: BuildInput, place: { riser: string; circuit: Circuit }): number[] {
  const fits = (outlet: PlannedOutlet): boolean =>
    outlet.riser === place.riser && (place.circuit === 'cold' || assumedHot(outlet.kind))
  const floors = [...new Set(input.outlets.filter(fits).map((outlet) => outlet.floor))].sort((a, b) => a - b)
  return input.shape.plantPosition === 'bottom' ? floors : floors.toReversed()
}

function addRiser({ input, parts, circuit, tally }: CircuitInput, riser: string): void {
  let from = mainId(circuit, riser)
  let fromFloor = input.shape.plantFloor
  let left = tally.get(riser) ?? 0
  for (const floor of floorsOn(input, { riser, circuit })) {
    const to = floorId(circuit, { riser, floor })
    const lengthM = Math.abs(floor - fromFloor) * ASSUMED.floorHeightM
    parts.components.push(junction(to, { riser, floor }))
    parts.pipes.push(pipe({ from, to, circuit, lengthM, ...assumedPipe(input.description, Math.max(left, 1)) }))
    left -= tally.get(placeKey({ riser, floor })) ?? 0
    from = to
    fromFloor = floor
  }
}

interface OutletInput {
  input: BuildInput
  parts: SystemParts
  outlet: PlannedOutlet
  warm: Circuit | undefined
}

function addOutlet({ input, parts, outlet, warm }: OutletInput): void {
  const { position, ...facts } = outlet
  const hot = warm !== undefined && assumedHot(outlet.kind)
  const use = withinReach(assumedUse(outlet.kind), input)
  const valve = hot && input.description.mixing === 'point-of-use' && mixesBelow(use) ? `mix-${outlet.id}` : undefined
  const tempered = valve !== undefined || warm === 'tempered'
  const provenance: Provenance = { default: 'guessed', kind: 'told', floor: 'told', riser: 'told' }
  parts.components.push({ ...facts, use: settledUse(use, { hot, tempered }), provenance })
  const lengthM = ASSUMED.branchFirstM + position * ASSUMED.branchStepM
  const size = assumedPipe(input.description, 1)
  const target = valve ?? outlet.id
  if (hot) parts.pipes.push(pipe({ from: floorId(warm, outlet), to: target, circuit: warm, lengthM, ...size }))
  parts.pipes.push(pipe({ from: floorId('cold', outlet), to: target, circuit: 'cold', lengthM, ...size }))
  if (valve === undefined) return
  const { floor, riser, room } = outlet
  const kind = 'mixing-valve'
  const setpointC = ASSUMED.temperedC
  parts.components.push({ id: valve, kind, floor, riser, room, setpointC, provenance: { ...provenance } })
  parts.pipes.push(pipe({ from: valve, to: outlet.id, circuit: 'tempered', lengthM: ASSUMED.mixedTailM, ...size }))
}

const mixesBelow = (use: Use): boolean =>
  use.pattern === 'pulses' && use.mixToC !== undefined && use.mixToC <= ASSUMED.temperedC

/** Nobody mixes to more than the hottest heater is set to. */
function withinReach(use: Use, { description }: BuildInput): Use {
  const setpoints = (description.heaters ?? []).map((heater) => heater.setpointC ?? ASSUMED.storageSetpointC)
  return use.pattern === 'pulses' && (use.mixToC ?? 0) > Math.max(0, ...setpoints) ? withoutMixing(use) : use
}

function withoutMixing(use: Use & { pattern: 'pulses' }): Use {
  const { mixToC: _, ...unmixed } = use
  return unmixed
}

/** No mixing is assumed where no hot water comes, nor above what a mixing valve lets through. */
function settledUse(use: Use, water: { hot: boolean; tempered: boolean }): Use {
  if (use.pattern !== 'pulses' || use.mixToC === undefined) return use
  return water.hot && !(water.tempered && use.mixToC > ASSUMED.temperedC) ? use : withoutMixing(use)
}

function addReturns({ input, parts, warm }: { input: BuildInput; parts: SystemParts; warm: Circuit }): void {
  const risers = hotRisers(input)
  const size = assumedPipe(input.description, 1)
  const add = (facts: Omit<Pipe, 'id' | 'circuit'>): void => {
    parts.pipes.push({
      ...pipe({ ...facts, circuit: 'hot-return' }),
      provenance: { default: 'guessed', circuit: 'told' },
    })
  }
  const last = risers.at(-1)
  if (last === undefined) return
  const recirculationLPerMin = ASSUMED.flowPerRiserLPerMin
  if (input.description.recirculation === 'whole') {
    const lengthM = ASSUMED.plantToRiserM + (risers.length - 1) * ASSUMED.betweenRisersM
    add({ from: mainId(warm, last), to: 'return-pump', lengthM, recirculationLPerMin, ...size })
    return
  }
  let next: { id: string; lengthM: number } = { id: 'return-pump', lengthM: ASSUMED.plantToRiserM }
  for (const riser of risers) {
    const far = floorsOn(input, { riser, circuit: warm }).at(-1)
    if (far === undefined) continue
    const main = mainId('hot-return', riser)
    const lengthM = Math.abs(far - input.shape.plantFloor) * ASSUMED.floorHeightM
    parts.components.push(junction(main, { riser, floor: input.shape.plantFloor }))
    add({ from: floorId(warm, { riser, floor: far }), to: main, lengthM, recirculationLPerMin, ...size })
    add({ from: main, to: next.id, lengthM: next.lengthM, ...size })
    next = { id: main, lengthM: ASSUMED.betweenRisersM }
  }
}

const junction = (id: string, place: { riser: string; floor: number }): Component => ({
  id,
  kind: 'junction',
  ...place,
  provenance: { default: 'guessed', riser: 'told', floor: 'told' },
})

const pipe = (facts: Omit<Pipe, 'id'>): Pipe => ({
  id: `${facts.circuit}-${facts.from}-to-${facts.to}`,
  ...facts,
  provenance: { default: 'guessed' },
})
