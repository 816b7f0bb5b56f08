import type { Circuit, SampleKind } from '@rillmark/casebook/entry/fields.ts'
import type { ReadingQuantity } from '@rillmark/casebook/fieldwork/kinds.ts'
import type { BodyOf } from '@rillmark/casebook/entry/kinds.ts'
import type { PlannedSample, Stop } from '@rillmark/casebook/plan/plan-file.ts'
import { type DemoDesk, later, OKORO } from '../desk.ts'
import { spread } from './spread.ts'

type DeviationReason = BodyOf<'deviation.recorded'>['reason']

/** What the water was like on the day: the same building, three times. */
export interface Day {
  readonly round: string
  /** wall time of the first stop */
  readonly startsAt: string
  /** hot water as hot as it gets, by riser */
  readonly hotC: (riser: string | undefined) => number
  readonly residualMgPerL: number
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
  let at = day.startsAt
  for (const stop of plan.stops) {
    const minutes = visit(desk, { stop, day, at })
    at = later(at, minutes)
  }
}

function visit(desk: DemoDesk, { stop, day, at }: { stop: Stop; day: Day; at: string }): number {
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
  if (stop.component !== undefined) readings(desk, { place, stop, day, at: now })
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

function readings(desk: DemoDesk, { place, stop, day, at }: At & { day: Day }): void {
  const component = stop.component === undefined ? {} : { component: stop.component }
  const read = (
    quantity: ReadingQuantity,
    { value, instrument, minutes }: { value: number; instrument: string; minutes: number },
  ): void => {
    const unit = quantity === 'ph' ? '[pH]' : quantity === 'total-chlorine' ? 'mg/L' : 'Cel'
    const reading = { kind: 'value', value, unit } as const
    desk.write(
      'reading.taken',
      { ...place, ...component, quantity, reading, instrument },
      { at: later(at, minutes), by: OKORO },
    )
  }
  const circuits = new Set<Circuit | undefined>(stop.samples.map(({ circuit }) => circuit))
  const name = `${stop.id} ${day.round}`
  const hot = ['hot', 'hot-return', 'tempered'].some((circuit) => circuits.has(circuit as Circuit))
  const kept = hot
    ? spread(`${name} kept`, { from: 0.25, to: 0.5, decimals: 2 })
    : spread(`${name} kept`, { from: 0.7, to: 1, decimals: 2 })
  read('total-chlorine', { value: Number((day.residualMgPerL * kept).toFixed(1)), instrument: 'K1', minutes: 0 })
  read('ph', { value: spread(`${name} ph`, { from: 7.9, to: 8.2, decimals: 2 }), instrument: 'P1', minutes: 0 })
  if (circuits.has('cold') || stop.samples.some(({ procedure }) => procedure === 'cold-readings'))
    read('cold-temperature', {
      value: spread(`${name} cold`, { from: 14.2, to: 18.9, decimals: 1 }),
      instrument: 'T1',
      minutes: 1,
    })
  if (hot) hotCurve(desk, { place, stop, day, at: later(at, 2) })
}

/** Hot water rises to its steady temperature within a minute or two; a reading every 10 s. */
function hotCurve(desk: DemoDesk, { place, stop, day, at }: At & { day: Day }): void {
  const steadyC = Number(
    (day.hotC(stop.riser) + spread(`${stop.id} hot ${day.round}`, { from: -0.8, to: 0.8, decimals: 1 })).toFixed(1),
  )
  const startC = 24
  const points = Array.from({ length: 11 }, (_, index) => {
    const rise = 1 - Math.exp(-index / 2)
    return {
      seconds: index * 10,
      temperatureC: Number((index < 8 ? startC + (steadyC - startC) * rise : steadyC).toFixed(1)),
    }
  })
  desk.write(
    'reading.taken',
    {
      ...place,
      ...(stop.component === undefined ? {} : { component: stop.component }),
      quantity: 'hot-temperature',
      reading: { kind: 'value', value: steadyC, unit: 'Cel' },
      curve: { points, steady: { fromSeconds: 80, toSeconds: 100, temperatureC: steadyC } },
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
