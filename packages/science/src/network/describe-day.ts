/* oxlint-disable typescript/no-non-null-assertion -- every place is within an array of known length */
import settings from '@rillmark/reference/network/simulation.json' with { type: 'json' }
import { AGE_CAP_MINUTES, type BuildingRun } from './building-run.ts'
import type { DaySeries, PipeDay, PlaceDay, SimulatedDay, Spread } from './day-result.ts'
import { growthIndexOf } from './growth.ts'
import type { Quantity } from './network.ts'
import { QUANTITIES } from './network.ts'
import { WATER } from './water-change.ts'

const MINUTES_PER_DAY = 1440
const MINUTES_PER_HOUR = 60
const HOURS_PER_DAY = 24
const SECONDS_PER_DAY = 86_400
const M3_PER_S = 1 / 60_000
const MM_PER_M = 1000

interface Ending {
  day: number
  repeats: boolean
  balance: SimulatedDay['balance']
}

/**
 * The last day of a run in the terms of the network's lists.
 *
 * @source none: it sums up what was simulated
 */
export function describeDay(run: BuildingRun, { day, repeats, balance }: Ending): SimulatedDay {
  const moment = (day + 1) * MINUTES_PER_DAY
  const pipes = run.network.pipes.map((_, pipe) => pipeDay(run, { pipe, moment }))
  const inflows = inflowsOf(run, pipes)
  const own = ownPlaces(run, { pipes, inflows })
  const nodes = run.network.nodes.map((_, node) => nodeDay(run, { node, pipes, inflows, own }))
  const series = seriesOf(run, { pipes, nodes, inflows, own })
  const outlets = run.control.spoutDays()
  const answer = { pipes, nodes, outlets, balance, daysUntilRepeating: day + 1, repeats }
  return series === undefined ? answer : { ...answer, series }
}

function pipeDay(run: BuildingRun, { pipe, moment }: { pipe: number; moment: number }): PipeDay {
  const { record, still, network, rates, transport } = run
  const flowLPerMin = run.flowRecord.spreadOf(pipe, moment)
  const areaM2 = (Math.PI / 4) * (network.pipes[pipe]!.boreMm / MM_PER_M) ** 2
  const speed = (flow: number): number => (flow * M3_PER_S) / areaM2
  return {
    flowLPerMin,
    velocityMPerS: { mean: speed(flowLPerMin.mean), min: speed(flowLPerMin.min), max: speed(flowLPerMin.max) },
    end: still[pipe] === 1 ? stillPlace(run, rates.ambientC[pipe]!) : record.dayOf(pipe),
    heatLossW: (transport.lostToday(pipe) * rates.heatJPerLK[pipe]!) / SECONDS_PER_DAY,
  }
}

/** Water that never moves: as warm as the air, without residual, as old as is told. */
function stillPlace({ change }: BuildingRun, ambientC: number): PlaceDay {
  const { water } = change
  water.fill(0)
  change.react(ambientC, AGE_CAP_MINUTES / MINUTES_PER_HOUR)
  const same = (value: number): Spread => ({ mean: value, min: value, max: value })
  const { bandLower, bandUpper } = settings.figures
  const cap = AGE_CAP_MINUTES / MINUTES_PER_HOUR
  return {
    ageHours: same(cap),
    temperatureC: same(ambientC),
    residualMgPerL: same(0),
    standingHours: same(cap),
    hoursInGrowthBand: ambientC >= bandLower.value && ambientC <= bandUpper.value ? HOURS_PER_DAY : 0,
    longestStagnationHours: HOURS_PER_DAY,
    growthIndex: growthIndexOf({
      meanGrowth: water[WATER.growth]!,
      meanFavour: change.favour(ambientC, 0),
      longestStagnationHours: HOURS_PER_DAY,
    }),
    neverMoves: true,
  }
}

/** By node: the pipes that bring water there on balance, with their share of it; else the pipes that touch it. */
type Inflows = readonly (readonly { pipe: number; share: number }[])[]

function inflowsOf({ network }: BuildingRun, pipes: readonly PipeDay[]): Inflows {
  const touching: number[][] = network.nodes.map(() => [])
  for (const [index, { from, to }] of network.pipes.entries()) {
    touching[from]!.push(index)
    touching[to]!.push(index)
  }
  return touching.map((around, node) => {
    const into = around.map((pipe) => {
      const mean = pipes[pipe]!.flowLPerMin.mean
      return { pipe, flow: network.pipes[pipe]!.to === node ? mean : -mean }
    })
    const bringing = into.filter(({ flow }) => flow > 0)
    const all = bringing.reduce((sum, { flow }) => sum + flow, 0)
    if (all > 0) return bringing.map(({ pipe, flow }) => ({ pipe, share: flow / all }))
    return around.map((pipe) => ({ pipe, share: 1 / around.length }))
  })
}

/** Places in the record of nodes: for a vessel from its lowest layer, with their number; for a mixed node its one. */
type OwnPlaces = ReadonlyMap<number, { place: number; layers: number }>

/** A valve of whose water none ever moves has no place of its own: it is as its pipes are. */
function ownPlaces(
  { vessels, network }: BuildingRun,
  { pipes, inflows }: { pipes: readonly PipeDay[]; inflows: Inflows },
): OwnPlaces {
  const own = new Map<number, { place: number; layers: number }>()
  let place = 0
  for (const { node, layers } of vessels.states) {
    own.set(node, { place, layers })
    place += layers
  }
  for (const { mixedNode } of network.valves) {
    const around = inflows[mixedNode]!
    const moves = around.length === 0 || around.some(({ pipe }) => !pipes[pipe]!.end.neverMoves)
    if (moves) own.set(mixedNode, { place, layers: 1 })
    place++
  }
  return own
}

interface NodeParts {
  node: number
  pipes: readonly PipeDay[]
  inflows: Inflows
  own: OwnPlaces
}

function nodeDay(run: BuildingRun, { node, pipes, inflows, own }: NodeParts): PlaceDay {
  const one = run.network.nodes[node]!
  const around = inflows[node]!.map(({ pipe, share }) => ({ place: pipes[pipe]!.end, share }))
  const place = own.get(node)
  if (place !== undefined) {
    const day = ownDay(run, place, longestRestOf(around))
    // a heated vessel is not as warm as its air
    const stands = one.kind === 'vessel' && one.setpointC === undefined && neverMoves(around)
    return stands ? { ...day, neverMoves: true } : day
  }
  if (one.kind === 'source') return sourceDay(one.temperatureC, one.residualMgPerL)
  const mixed = around.length === 0 ? sourceDay(0, 0) : mixedPlace(around)
  if (one.kind !== 'heater' || mixed.neverMoves) return mixed
  return heated(run, { mixed, setpointC: one.setpointC, meanGrowth: growthOf(run, { pipes, from: inflows[node]! }) })
}

const neverMoves = (around: readonly { place: PlaceDay }[]): boolean =>
  around.length > 0 && around.every(({ place }) => place.neverMoves)

/** Mean growth of what pipes bring, by their shares. */
function growthOf(
  { record }: BuildingRun,
  { pipes, from }: { pipes: readonly PipeDay[]; from: Inflows[number] },
): number {
  const carried = (pipe: number): number =>
    pipes[pipe]!.end.neverMoves ? pipes[pipe]!.end.growthIndex : record.meanOf(pipe, WATER.growth)
  return from.reduce((sum, { pipe, share }) => sum + share * carried(pipe), 0)
}

/** Top layer for what is sent out; the worst layer for what may grow. */
function ownDay(run: BuildingRun, { place, layers }: { place: number; layers: number }, restHours: number): PlaceDay {
  const days = Array.from({ length: layers }, (_, layer) => run.nodeRecord.dayOf(place + layer))
  const top = days.at(-1)!
  const worst = (figure: (day: PlaceDay) => number): number =>
    days.reduce((most, day) => Math.max(most, figure(day)), 0)
  return {
    ...top,
    hoursInGrowthBand: worst((day) => day.hoursInGrowthBand),
    growthIndex: worst((day) => day.growthIndex),
    longestStagnationHours: restHours,
  }
}

const longestRestOf = (around: readonly { place: PlaceDay }[]): number =>
  around.length === 0
    ? 0
    : around.reduce((least, { place }) => Math.min(least, place.longestStagnationHours), HOURS_PER_DAY)

function sourceDay(temperatureC: number, residualMgPerL: number): PlaceDay {
  const same = (value: number): Spread => ({ mean: value, min: value, max: value })
  return {
    ageHours: same(0),
    temperatureC: same(temperatureC),
    residualMgPerL: same(residualMgPerL),
    standingHours: same(0),
    hoursInGrowthBand: 0,
    longestStagnationHours: 0,
    growthIndex: 0,
    neverMoves: false,
  }
}

/** Water of several pipes together: means by their share, extremes of all. */
function mixedPlace(around: readonly { place: PlaceDay; share: number }[]): PlaceDay {
  const [first] = around
  if (around.length === 1 && first !== undefined) return first.place
  const sum = (figure: (place: PlaceDay) => number): number =>
    around.reduce((total, { place, share }) => total + share * figure(place), 0)
  const spread = (of: (place: PlaceDay) => Spread): Spread => ({
    mean: sum((place) => of(place).mean),
    min: around.reduce((low, { place }) => Math.min(low, of(place).min), Number.POSITIVE_INFINITY),
    max: around.reduce((high, { place }) => Math.max(high, of(place).max), Number.NEGATIVE_INFINITY),
  })
  return {
    ageHours: spread((place) => place.ageHours),
    temperatureC: spread((place) => place.temperatureC),
    residualMgPerL: spread((place) => place.residualMgPerL),
    standingHours: spread((place) => place.standingHours),
    hoursInGrowthBand: sum((place) => place.hoursInGrowthBand),
    longestStagnationHours: longestRestOf(around),
    growthIndex: sum((place) => place.growthIndex),
    neverMoves: around.every(({ place }) => place.neverMoves),
  }
}

/** A heater without content sends on nothing cooler than its set point; what favours growth is judged by that. */
function heated(
  { change }: BuildingRun,
  { mixed, setpointC, meanGrowth }: { mixed: PlaceDay; setpointC: number; meanGrowth: number },
): PlaceDay {
  const { mean, min, max } = mixed.temperatureC
  const raised = { mean: Math.max(mean, setpointC), min: Math.max(min, setpointC), max: Math.max(max, setpointC) }
  return {
    ...mixed,
    temperatureC: raised,
    hoursInGrowthBand: hoursInBand(raised, mixed.hoursInGrowthBand),
    growthIndex: growthIndexOf({
      meanGrowth,
      meanFavour: change.favour(raised.mean, mixed.residualMgPerL.mean),
      longestStagnationHours: mixed.longestStagnationHours,
    }),
  }
}

/** Hours of a day in the band of growth, by its extremes where these tell; else those of the water before it was warmed. */
function hoursInBand({ min, max }: Spread, before: number): number {
  const { bandLower, bandUpper } = settings.figures
  if (min > bandUpper.value || max < bandLower.value) return 0
  return min >= bandLower.value && max <= bandUpper.value ? HOURS_PER_DAY : before
}

function seriesOf(
  run: BuildingRun,
  of: { pipes: readonly PipeDay[]; nodes: readonly PlaceDay[]; inflows: Inflows; own: OwnPlaces },
): DaySeries | undefined {
  const { record, nodeRecord, network } = run
  const { curves } = record
  if (curves === undefined || nodeRecord.curves === undefined) return undefined
  const { slots } = curves
  const pipeCurve = (name: Quantity): Float32Array =>
    withStill(run, { name, of: curves.of[name], slots, pipes: of.pipes })
  const pipes = Object.fromEntries(QUANTITIES.map((name) => [name, pipeCurve(name)])) as Record<Quantity, Float32Array>
  const nodeCurve = (name: Quantity): Float32Array => {
    const found = new Float32Array(network.nodes.length * slots)
    for (let node = 0; node < network.nodes.length; node++) {
      const own = of.own.get(node)
      const source = network.nodes[node]!
      for (let slot = 0; slot < slots; slot++) {
        const at = node * slots + slot
        if (own !== undefined) found[at] = nodeRecord.curves!.of[name][(own.place + own.layers - 1) * slots + slot]!
        else if (source.kind === 'source') found[at] = sourceValue(source, name)
        else for (const { pipe, share } of of.inflows[node]!) found[at]! += share * pipes[name][pipe * slots + slot]!
        if (source.kind === 'heater' && name === 'temperatureC' && !of.nodes[node]!.neverMoves)
          found[at] = Math.max(found[at]!, source.setpointC)
      }
    }
    return found
  }
  const nodes = Object.fromEntries(QUANTITIES.map((name) => [name, nodeCurve(name)])) as Record<Quantity, Float32Array>
  return { slots, pipes: { ...pipes, flowLPerMin: run.flowRecord.curve }, nodes }
}

function sourceValue(source: { temperatureC: number; residualMgPerL: number }, name: Quantity): number {
  return name === 'temperatureC' || name === 'residualMgPerL' ? source[name] : 0
}

function withStill(
  { still }: BuildingRun,
  { name, of, slots, pipes }: { name: Quantity; of: Float32Array; slots: number; pipes: readonly PipeDay[] },
): Float32Array {
  const curve = of.slice()
  for (let pipe = 0; pipe < still.length; pipe++)
    if (still[pipe] === 1) curve.fill(stillValue(pipes[pipe]!.end, name), pipe * slots, (pipe + 1) * slots)
  return curve
}

const stillValue = (place: PlaceDay, name: Quantity): number =>
  name === 'growth' ? place.growthIndex : place[name].mean
