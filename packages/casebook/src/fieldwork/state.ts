import type { Appliers, EffectiveEntry } from '../state/effective.ts'

/** What happened at one stop of one round. */
export interface StopVisit {
  readonly round: string
  readonly stop: string
  started: EffectiveEntry<'stop.started'> | undefined
  finished: EffectiveEntry<'stop.finished'> | undefined
  readonly steps: EffectiveEntry<'step.done'>[]
  readonly samples: EffectiveEntry<'sample.collected'>[]
  readonly readings: EffectiveEntry<'reading.taken'>[]
  readonly deviations: EffectiveEntry<'deviation.recorded'>[]
  readonly photos: EffectiveEntry<'photo.taken'>[]
}

export interface FieldworkState {
  /** by code */
  readonly instruments: Map<string, EffectiveEntry<'instrument.registered'>>
  readonly addedStops: EffectiveEntry<'stop.added'>[]
  /** by `visitKey` */
  readonly visits: Map<string, StopVisit>
  /** collected samples by label */
  readonly samples: Map<string, EffectiveEntry<'sample.collected'>>
  readonly readings: EffectiveEntry<'reading.taken'>[]
}

export const emptyFieldwork = (): FieldworkState => ({
  instruments: new Map(),
  addedStops: [],
  visits: new Map(),
  samples: new Map(),
  readings: [],
})

export function visitKey({ round, stop }: { round: string; stop: string }): string {
  return `${round}/${stop}`
}

function visitOf(state: FieldworkState, at: { round: string; stop: string }): StopVisit {
  const key = visitKey(at)
  const known = state.visits.get(key)
  if (known !== undefined) return known
  const { round, stop } = at
  const visit: StopVisit = {
    round,
    stop,
    started: undefined,
    finished: undefined,
    steps: [],
    samples: [],
    readings: [],
    deviations: [],
    photos: [],
  }
  state.visits.set(key, visit)
  return visit
}

export const fieldworkAppliers: Appliers<FieldworkState> = {
  'instrument.registered': (state, entry) => {
    state.instruments.set(entry.body.code, entry)
  },
  'stop.added': (state, entry) => {
    state.addedStops.push(entry)
  },
  'stop.started': (state, entry) => {
    visitOf(state, entry.body).started ??= entry
  },
  'step.done': (state, entry) => {
    visitOf(state, entry.body).steps.push(entry)
  },
  'sample.collected': (state, entry) => {
    visitOf(state, entry.body).samples.push(entry)
    state.samples.set(entry.body.label, entry)
  },
  'reading.taken': (state, entry) => {
    visitOf(state, entry.body).readings.push(entry)
    state.readings.push(entry)
  },
  'deviation.recorded': (state, entry) => {
    visitOf(state, entry.body).deviations.push(entry)
  },
  'photo.taken': (state, entry) => {
    visitOf(state, entry.body).photos.push(entry)
  },
  'stop.finished': (state, entry) => {
    visitOf(state, entry.body).finished = entry
  },
}
