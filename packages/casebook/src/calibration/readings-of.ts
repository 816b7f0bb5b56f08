import { type Circuit, isOutlet } from '../building/water-system.ts'
import type { ReadingValue, TemperatureCurve } from '../fieldwork/kinds.ts'
import { steadyStretch } from '../fieldwork/steady.ts'
import type { EffectiveEntry } from '../state/effective.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { wallClock } from '../units/local-time.ts'
import type { FieldReading } from './field-reading.ts'
import { readingSd } from './reading-sd.ts'
import { minuteOf } from './readings-of-file.ts'

type Taken = EffectiveEntry<'reading.taken'>

/** Seconds of a curve that are taken besides its steady end: the standing water, and the warming or cooling half-way. */
const TAKEN_AT_SECONDS = [0, 30]

/**
 * The readings of the record a fit can use: temperatures and residuals at places of the water system. Of a curve its first point, the one
 * nearest half a minute and its steady end (the last point where it didn't become steady), of plant the end alone; points of one curve share
 * their errors, so that more would count the same twice. pH says nothing of what is fitted.
 *
 * @param state the record; rounds given leave out the readings of others
 */
export function readingsOf(state: InvestigationState, rounds?: ReadonlySet<string>): FieldReading[] {
  return state.fieldwork.readings
    .filter(({ body }) => rounds === undefined || rounds.has(body.round))
    .flatMap((entry) => readingsOfEntry(state, entry))
}

function readingsOfEntry(state: InvestigationState, entry: Taken): FieldReading[] {
  const { body } = entry
  if (body.quantity === 'ph') return []
  const stop = state.plan.rounds.get(body.round)?.body.plan.stops.find(({ id }) => id === body.stop)
  const component = body.component ?? stop?.component
  if (component === undefined) return []
  const quantity = body.quantity.endsWith('temperature') ? 'temperature' : 'residual'
  const circuit = body.circuit ?? circuitOf(state, { component, quantity: body.quantity, stop: stop?.samples ?? [] })
  const clockMinute = clockMinuteOf(entry)
  const place = { component, circuit, quantity, clockMinute } as const
  const sdOf = (value: number): number => Math.hypot(readingSd({ quantity, value }), stepSd(state, body))
  if (body.curve !== undefined && quantity === 'temperature')
    return ofCurve(body.curve, isTap(state, component)).map(({ seconds, temperatureC }) => ({
      ...place,
      id: `${entry.id}@${seconds}`,
      value: temperatureC,
      seconds,
      sd: sdOf(temperatureC),
    }))
  const { value, beyond } = amountOf(body.reading)
  return [{ ...place, id: entry.id, value, ...(beyond ? { beyond } : {}), sd: sdOf(value) }]
}

/** An instrument that shows steps leaves half a step either way, all alike likely; its unit is that of what it measures. */
function stepSd(state: InvestigationState, { instrument }: Taken['body']): number {
  const registered = instrument === undefined ? undefined : state.fieldwork.instruments.get(instrument)
  return (registered?.body.resolution ?? 0) / Math.sqrt(12)
}

function amountOf(reading: ReadingValue): Pick<FieldReading, 'value' | 'beyond'> {
  return reading.kind === 'value' ? { value: reading.value } : { value: reading.limit, beyond: reading.kind }
}

type CurvePoint = TemperatureCurve['points'][number]

/** At plant the first water is that of a sampling valve, of which the description knows nothing. */
function isTap(state: InvestigationState, id: string): boolean {
  const component = state.building.system?.components.find((one) => one.id === id)
  return component === undefined || isOutlet(component)
}

function ofCurve({ points, steady }: TemperatureCurve, early: boolean): CurvePoint[] {
  const last = points.at(-1)
  if (last === undefined) return []
  const end = steady ?? steadyStretch(points)
  const before = points.filter(({ seconds }) => seconds < (end?.fromSeconds ?? last.seconds))
  const begun = TAKEN_AT_SECONDS.flatMap((wanted) => {
    const off = ({ seconds }: CurvePoint): number => Math.abs(seconds - wanted)
    return before.toSorted((a, b) => off(a) - off(b)).slice(0, 1)
  })
  const cleared = end === undefined ? last : { seconds: end.toSeconds, temperatureC: end.temperatureC }
  return early ? [...new Set([...begun, cleared])] : [cleared]
}

interface AtPlace {
  component: string
  quantity: string
  stop: readonly { circuit?: Circuit | undefined }[]
}

/** Where an entry doesn't say which water: the return where the stop is about one, else what the quantity and the outlet's pipes say. */
function circuitOf(state: InvestigationState, { component, quantity, stop }: AtPlace): Circuit {
  if (quantity === 'cold-temperature') return 'cold'
  const there = new Set(
    state.building.system?.pipes
      .filter(({ from, to }) => from === component || to === component)
      .map(({ circuit }) => circuit),
  )
  const wanted = new Set(stop.map(({ circuit }) => circuit))
  const order: readonly Circuit[] = ['hot-return', 'hot', 'tempered', 'cold']
  const named = order.find((circuit) => wanted.has(circuit) && there.has(circuit))
  if (named !== undefined && !(quantity === 'hot-temperature' && named === 'cold')) return named
  const usual: readonly Circuit[] = quantity === 'hot-temperature' ? ['hot', 'tempered'] : ['hot', 'tempered', 'cold']
  return usual.find((circuit) => there.has(circuit)) ?? (quantity === 'hot-temperature' ? 'hot' : 'cold')
}

function clockMinuteOf({ body, instant, offset }: Taken): number {
  return minuteOf(wallClock({ instant: body.takenAt ?? instant, offset }).slice(11))
}
