import type { Circuit, SampleKind } from '@rillmark/casebook/entry/fields.ts'
import type { ReadingQuantity } from '@rillmark/casebook/fieldwork/kinds.ts'
import type { BodyOf } from '@rillmark/casebook/entry/kinds.ts'
import type { PlannedSample, Stop } from '@rillmark/casebook/plan/plan-file.ts'
import { steadyStretch } from '@rillmark/casebook/fieldwork/steady.ts'
import { type DemoDesk, later, OKORO } from '../desk.ts'
import { type Held, HouseWater } from './house-water.ts'
import { spread } from './spread.ts'

type DeviationReason = BodyOf<'deviation.recorded'>['reason']

/** What the water was like on the day: the same building, three times. */
export interface Day {
  readonly round: string
  /** wall time of the first stop */
  readonly startsAt: string
  /** stops that could not be reached, with the reason */
  readonly noAccess?: Readonly<Record<string, string>>
  /** what went otherwise than the procedure says, by stop */
  readonly departures?: Readonly<Record<string, { reason: DeviationReason; text: string }>>
  /** outlets that carry a filter by now; it is taken off for sampling */
  readonly filtered?: (component: string | undefined) => boolean
}

const VOLUMES_ML: Readonly<Record<SampleKind, number>> = {
  'first-flush-swab': 4,
  'bulk-hot': 1000,
  'bulk-cold': 1000,
  'heater-drain': 1000,
  'return-line': 1000,
  'field-blank': 1000,
  duplicate: 1000,
  'readings-only': 1000,
}

/** Visits every stop of a round in the planned order, as a sampler with a phone would record it. */
export function visitStops(desk: DemoDesk, day: Day): void {
  const plan = desk.state.plan.rounds.get(day.round)?.body.plan
  if (plan === undefined) throw new Error(`The example visits ${day.round} before its plan is adopted`)
  const { system } = desk.state.building
  if (system === undefined) throw new Error(`The example visits ${day.round} before the house is described`)
  const water = new HouseWater(system, day.round)
  let at = day.startsAt
  for (const stop of plan.stops) {
    const minutes = visit(desk, { stop, day, water, at })
    at = later(at, minutes)
  }
}

interface Visit {
  readonly stop: Stop
  readonly day: Day
  readonly water: HouseWater
  readonly at: string
}

function visit(desk: DemoDesk, { stop, day, water, at }: Visit): number {
  const place = { round: day.round, stop: stop.id }
  desk.write('stop.started', place, { at, by: OKORO })
  const shut = day.noAccess?.[stop.id]
  if (shut !== undefined) {
    desk.write('deviation.recorded', { ...place, reason: 'no access', text: shut }, { at: later(at, 1), by: OKORO })
    desk.write('stop.finished', { ...place, outcome: 'not possible', reason: shut }, { at: later(at, 2), by: OKORO })
    return 4
  }
  const departure = day.departures?.[stop.id]
  if (departure !== undefined)
    desk.write('deviation.recorded', { ...place, ...departure }, { at: later(at, 1), by: OKORO })
  let now = later(at, 2)
  for (const sample of stop.samples.filter(({ label }) => label !== undefined)) {
    collect(desk, { place, stop, sample, day, at: now })
    now = later(now, 2)
  }
  const { component } = stop
  if (component !== undefined) readings(desk, { place: { ...place, component }, stop, day, water, at: now })
  desk.write('stop.finished', { ...place, outcome: 'sampled' }, { at: later(now, 4), by: OKORO })
  return 13
}

interface At {
  readonly place: { readonly round: string; readonly stop: string }
  readonly stop: Stop
  readonly at: string
}

function collect(desk: DemoDesk, { place, stop, sample, day, at }: At & { sample: PlannedSample; day: Day }): void {
  if (sample.label === undefined) return
  const bulk = VOLUMES_ML[sample.sampleKind] === 1000
  desk.write(
    'sample.collected',
    {
      ...place,
      label: sample.label,
      sampleKind: sample.sampleKind,
      ...(sample.circuit === undefined ? {} : { circuit: sample.circuit }),
      ...(stop.component === undefined ? {} : { component: stop.component }),
      volumeMl: bulk ? 1000 : spread(`${sample.label} volume`, { from: 3, to: 5, decimals: 1 }),
      ...(sample.sampleKind === 'bulk-hot'
        ? { flushedSeconds: spread(`${sample.label} flush`, { from: 30, to: 70 }) }
        : {}),
      filter: day.filtered?.(stop.component) === true ? 'before filter' : 'none',
      neutralizer: {
        solutionNormality: 0.1,
        solutionVolumeMl: bulk ? 0.6 : 0.05,
        lot: 'TS-0226',
        expiresOn: '2027-01-31',
      },
    },
    { at, by: OKORO },
  )
}

interface Reading {
  readonly place: At['place'] & { readonly component: string }
  readonly stop: Stop
  readonly day: Day
  readonly water: HouseWater
  readonly at: string
}

/** Where a stop has water on several sides, the residual is read on the first of these. */
const SIDES: readonly Circuit[] = ['hot-return', 'hot', 'tempered']

function readings(desk: DemoDesk, { place, stop, day, water, at }: Reading): void {
  const { component } = place
  const read = (
    quantity: ReadingQuantity,
    { value, instrument, minutes }: { value: number; instrument: string; minutes: number },
  ): void => {
    const unit = quantity === 'ph' ? '[pH]' : quantity === 'total-chlorine' ? 'mg/L' : 'Cel'
    const reading = { kind: 'value', value, unit } as const
    desk.write('reading.taken', { ...place, quantity, reading, instrument }, { at: later(at, minutes), by: OKORO })
  }
  const held = (circuit: Circuit, minutes: number): Held => ({
    component,
    circuit,
    clockMinute: minuteOfDay(later(at, minutes)),
  })
  const circuits = new Set(stop.samples.map(({ circuit }) => circuit))
  const hot = SIDES.find((circuit) => circuits.has(circuit))
  read('total-chlorine', { value: water.read(held(hot ?? 'cold', 0), 'residual'), instrument: 'K1', minutes: 0 })
  const ph = spread(`${stop.id} ${day.round} ph`, { from: 7.9, to: 8.2, decimals: 2 })
  read('ph', { value: ph, instrument: 'P1', minutes: 0 })
  if (circuits.has('cold') || stop.samples.some(({ procedure }) => procedure === 'cold-readings'))
    read('cold-temperature', { value: water.read(held('cold', 1), 'temperature'), instrument: 'T1', minutes: 1 })
  if (hot !== undefined) hotCurve(desk, { place, points: water.curve(held(hot, 2)), at: later(at, 2) })
}

const minuteOfDay = (at: string): number => Number(at.slice(11, 13)) * 60 + Number(at.slice(14, 16))

/** Hot water read every 10 s; the reading is its steady end. */
function hotCurve(
  desk: DemoDesk,
  {
    place,
    points,
    at,
  }: { place: Reading['place']; points: readonly { seconds: number; temperatureC: number }[]; at: string },
): void {
  const steady = steadyStretch([...points])
  const value = steady?.temperatureC ?? points.at(-1)?.temperatureC ?? Number.NaN
  desk.write(
    'reading.taken',
    {
      ...place,
      quantity: 'hot-temperature',
      reading: { kind: 'value', value, unit: 'Cel' },
      curve: { points: [...points], ...(steady === undefined ? {} : { steady }) },
      instrument: 'T1',
    },
    { at, by: OKORO },
  )
}

/** The instruments of the day, in calibration. */
export function registerInstruments(desk: DemoDesk): void {
  const at = '2026-03-04T07:40'
  desk.write(
    'instrument.registered',
    {
      code: 'T1',
      kind: 'thermometer',
      measures: ['hot-temperature', 'cold-temperature'],
      rangeMin: -20,
      rangeMax: 110,
      resolution: 0.1,
      unit: 'Cel',
      calibratedOn: '2025-10-14',
      calibrationDue: '2026-10-14',
    },
    { at, by: OKORO },
  )
  desk.write(
    'instrument.registered',
    {
      code: 'K1',
      kind: 'chlorine kit',
      measures: ['total-chlorine'],
      rangeMin: 0,
      rangeMax: 3.5,
      resolution: 0.1,
      unit: 'mg/L',
      calibratedOn: '2026-01-08',
      calibrationDue: '2027-01-08',
    },
    { at, by: OKORO },
  )
  desk.write(
    'instrument.registered',
    {
      code: 'P1',
      kind: 'pH meter',
      measures: ['ph'],
      rangeMin: 0,
      rangeMax: 14,
      resolution: 0.01,
      unit: '[pH]',
      calibratedOn: '2026-03-02',
      calibrationDue: '2026-09-02',
    },
    { at, by: OKORO },
  )
}
