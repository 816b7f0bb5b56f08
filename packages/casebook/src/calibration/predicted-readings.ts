import { assumedUse } from '../building/assumptions.ts'
import type { WaterSystem } from '../building/water-system.ts'
import { thresholdFor } from '../fieldwork/figures.ts'
import type { SimulationRun } from './simulation-run.ts'
import type { FieldReading } from './field-reading.ts'
import { FITTING } from './figures.ts'
import { type ReadingPlace, ReadingPaths } from './reading-path.ts'
import { openTap, type OpenedTap, type RunningBuilding, runningBuilding, waterAtTap } from './water-at-tap.ts'

/** What the simulation says a reading should show. */
export interface PredictedReading {
  value: number
  /** How it varies over the hours around the clock time, or over the day, with the chance of who drew last. */
  daySd: number
  /** How far it moves if water comes sooner or later than reckoned: rough flow of the tap, rough length of its branch. */
  timingSd: number
}

/** Half the span around the clock time that is looked at. */
const AROUND_MINUTES = 60
const MINUTES_A_DAY = 1440
/** Spans looked at where no clock time is known, or where it says little of who drew last. */
const SPANS_A_DAY = 12

/**
 * Predictions for readings, in their order; undefined where the simulation has no such water.
 *
 * An outlet's reading is of the water that leaves its tap so many seconds after it is opened, see `waterAtTap`; without a time it is taken as
 * read at the end of the time in which water is to reach its limit. The thermometer follows with a lag. Plant is read as it runs; a return at a
 * heater or mixing valve is what all its return pipes bring, by their flows. The building is taken as it is within an hour of the clock time, or
 * over the day.
 *
 * Left out: what others draw at that moment, mixing along the bore, decay within these seconds.
 *
 * @param run the simulation, with curves of the day
 */
export function predictedReadings(
  run: SimulationRun,
  { system, readings }: { system: WaterSystem; readings: readonly FieldReading[] },
): (PredictedReading | undefined)[] {
  const paths = new ReadingPaths(system)
  const running = runningBuilding(run)
  const taps = new Map(system.components.map((one) => [one.id, one]))
  return readings.map((reading) => {
    const place = paths.placeOf(reading)
    if (place === undefined) return undefined
    return place.kind === 'through pipes'
      ? atTap(running, { reading, place, component: taps.get(reading.component) })
      : spreadOf(
          slotsAround(running, reading).map((slot) => atPlant(running, { reading, place, slot })),
          { timingSd: 0 },
        )
  })
}

type Component = WaterSystem['components'][number]

/** What runs from an opened tap: as much as its described use says, mixed or not, but not what a drip or a schedule says. */
function tapFlow(component: Component | undefined): number {
  const use = component?.use
  return use?.pattern === 'pulses' ? use.flowLPerMin : FITTING.tapFlowLPerMin
}

/** Whether the simulation draws from it at times of chance: as its use says, or where none is described as its kind is assumed to be used. */
function drawsByChance(component: Component | undefined): boolean {
  return component !== undefined && (component.use ?? assumedUse(component.kind)).pattern === 'pulses'
}

interface AtTap {
  reading: FieldReading
  place: ReadingPlace & { kind: 'through pipes' }
  component: Component | undefined
}

function atTap(run: RunningBuilding, { reading, place, component }: AtTap): PredictedReading | undefined {
  const tap = openedTap(run, { reading, place, flowLPerMin: tapFlow(component) })
  if (tap === undefined) return undefined
  const slots = slotsAround(run, reading)
  const at = (seconds: number): number[] => slots.map((slot) => shownAfter(tap, { seconds, slot }))
  const seconds = reading.seconds ?? usualSeconds(reading)
  const now = at(seconds)
  const off = [FITTING.timingSd, -FITTING.timingSd].map((ln) => Math.abs(mean(at(seconds * Math.exp(ln))) - mean(now)))
  const timingSd = seconds === 0 ? 0 : Math.max(...off)
  if (!drawsByChance(component)) return spreadOf(now, { timingSd })
  const hours = seconds === 0 ? slotsOf(run) : spansOfTheDay(run)
  const dayLong = hours.map((slot) => shownAfter(tap, { seconds, slot }))
  return spreadOf(now, { timingSd, also: dayLong })
}

/** Fifths of an exponential answer, each by its middle: −ln(1 − p). */
const LAGS = [0.1, 0.3, 0.5, 0.7, 0.9].map((share) => -Math.log(1 - share))

/** What a thermometer shows follows the water with the warmth of probe and tap; a sample is of the water itself. */
function shownAfter(tap: OpenedTap, { seconds, slot }: { seconds: number; slot: number }): number {
  if (tap.quantity === 'residualMgPerL' || seconds === 0) return waterAtTap(tap, { seconds, slot })
  return mean(LAGS.map((lag) => waterAtTap(tap, { seconds: Math.max(0, seconds - lag * FITTING.lagSeconds), slot })))
}

function openedTap(
  run: RunningBuilding,
  {
    reading,
    place,
    flowLPerMin,
  }: { reading: FieldReading; place: ReadingPlace & { kind: 'through pipes' }; flowLPerMin: number },
): OpenedTap | undefined {
  const pipes = place.pipes.flatMap((id) => run.map.pipes.get(id)?.pipe ?? [])
  const outletNode = nodeOf(run, { component: place.component, reading })
  if (pipes.length < place.pipes.length || outletNode === undefined) return undefined
  const quantity = SERIES_OF[reading.quantity]
  return openTap(run, { quantity, flowLPerMin, outletNode, pipes })
}

const SERIES_OF = { temperature: 'temperatureC', residual: 'residualMgPerL' } as const

/** When a reading is taken that says no time: as soon as water is held to its limit. */
const usualSeconds = ({ circuit }: FieldReading): number =>
  thresholdFor(circuit === 'cold' ? 'cold-temperature' : 'hot-temperature').withinSeconds

/**
 * Mean, and how far from it the readings lie that there may be. Where times of use are drawn by chance, the hour that is simulated says little of who
 * drew last before this reading: the hours of the whole day, `also`, do.
 */
function spreadOf(
  values: readonly number[],
  { timingSd, also = [] }: { timingSd: number; also?: readonly number[] },
): PredictedReading | undefined {
  const value = mean(values)
  if (!Number.isFinite(value)) return undefined
  const spread = (all: readonly number[]): number =>
    all.length === 0 ? 0 : Math.sqrt(mean(all.map((each) => (each - value) ** 2)))
  return { value, daySd: Math.max(spread(values), spread(also)), timingSd }
}

const mean = (values: readonly number[]): number => values.reduce((sum, each) => sum + each, 0) / values.length

function slotsAround({ series: { slots } }: RunningBuilding, { clockMinute }: FieldReading): number[] {
  if (clockMinute === undefined) return spansOfTheDay({ series: { slots } })
  const minutes = MINUTES_A_DAY / slots
  return slotsOf({ series: { slots } }).filter((slot) => {
    const apart = Math.abs((slot + 0.5) * minutes - clockMinute)
    return Math.min(apart, MINUTES_A_DAY - apart) <= Math.max(AROUND_MINUTES, minutes)
  })
}

const slotsOf = ({ series: { slots } }: { series: Pick<RunningBuilding['series'], 'slots'> }): number[] =>
  Array.from({ length: slots }, (_, slot) => slot)

function spansOfTheDay({ series: { slots } }: { series: Pick<RunningBuilding['series'], 'slots'> }): number[] {
  const every = Math.max(1, Math.floor(slots / SPANS_A_DAY))
  return Array.from({ length: Math.ceil(slots / every) }, (_, at) => at * every)
}

function atPlant(
  run: RunningBuilding,
  {
    reading,
    place,
    slot,
  }: { reading: FieldReading; place: Exclude<ReadingPlace, { kind: 'through pipes' }>; slot: number },
): number {
  const quantity = SERIES_OF[reading.quantity]
  const { slots, nodes, pipes } = run.series
  if (place.kind === 'of a part') {
    const node = nodeOf(run, { component: place.component, reading })
    return node === undefined ? Number.NaN : (nodes[quantity][node * slots + slot] ?? Number.NaN)
  }
  let [sum, flow] = [0, 0]
  for (const id of place.pipes) {
    const at = (run.map.pipes.get(id)?.pipe ?? Number.NaN) * slots + slot
    const weight = Math.abs(pipes.flowLPerMin[at] ?? 0) + Number.EPSILON
    sum += weight * (pipes[quantity][at] ?? Number.NaN)
    flow += weight
  }
  return sum / flow
}

function nodeOf(
  { map }: RunningBuilding,
  { component, reading: { circuit } }: { component: string; reading: FieldReading },
): number | undefined {
  const placed = map.components.get(component)
  return (circuit === 'hot-return' ? undefined : placed?.circuits[circuit]) ?? placed?.node
}
