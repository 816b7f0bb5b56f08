import type { EffectiveEntry } from '../state/effective.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import type { StopVisit } from './state.ts'
import { findStop, type StopAt, stopsOf, visitAt } from './stops.ts'

/** A person with a device in the hand. */
export interface Hand {
  readonly author: string
  readonly device: string
  /** what the device is called, where it joined with a name */
  readonly deviceName?: string | undefined
}

/** What one hand did at one stop. */
export interface WorkAtStop {
  readonly stop: string
  readonly title: string
  readonly hand: Hand
  /** first and last entry: UTC instants, with the offset in force at the last */
  readonly from: string
  readonly to: string
  readonly offset: string
  readonly samples: number
  readonly readings: number
  readonly deviations: number
  readonly photos: number
}

export interface TeamView {
  /** every hand with its stops in the order of its work */
  readonly hands: readonly { readonly hand: Hand; readonly work: readonly WorkAtStop[] }[]
  /** stops begun and not finished, with whoever wrote there last; the longest untouched first */
  readonly underWay: readonly WorkAtStop[]
  /** stops where more than one hand wrote */
  readonly shared: readonly { readonly stop: string; readonly title: string; readonly hands: readonly Hand[] }[]
}

/** Who did what in a round: by person and device, what is under way, and where two worked on one stop. */
export function teamView(state: InvestigationState, round: string): TeamView {
  const stops = stopsOf(state, round).map(({ stop }) => ({ round, stop: stop.id }))
  const perStop = stops.map((at) => ({ at, work: workAt(state, at) }))
  const all = perStop.flatMap(({ work }) => work)
  const byHand = Map.groupBy(all, ({ hand }) => keyOf(hand))
  return {
    hands: [...byHand.values()].flatMap((work) => {
      const [first] = work
      return first === undefined ? [] : [{ hand: first.hand, work: work.toSorted((a, b) => early(a.from, b.from)) }]
    }),
    underWay: perStop
      .filter(({ at }) => isUnderWay(visitAt(state, at)))
      .flatMap(({ work }) => work.toSorted((a, b) => early(a.to, b.to)).slice(-1))
      .toSorted((a, b) => early(a.to, b.to)),
    shared: perStop.flatMap(({ at, work }) =>
      work.length < 2 ? [] : [{ stop: at.stop, title: titleOf(state, at), hands: work.map(({ hand }) => hand) }],
    ),
  }
}

/** What each hand did at a stop, in the order they came. */
export function workAt(state: InvestigationState, at: StopAt): readonly WorkAtStop[] {
  const visit = visitAt(state, at)
  if (visit === undefined) return []
  const title = titleOf(state, at)
  const byHand = Map.groupBy(entriesOf(visit), keyOf)
  const work = [...byHand.values()].flatMap((entries): WorkAtStop[] => {
    const sorted = entries.toSorted((a, b) => early(a.instant, b.instant))
    const [first, last] = [sorted[0], sorted.at(-1)]
    if (first === undefined || last === undefined) return []
    const count = (kind: string): number => entries.filter((entry) => entry.kind === kind).length
    return [
      {
        stop: at.stop,
        title,
        hand: handOf(state, first),
        from: first.instant,
        to: last.instant,
        offset: last.offset,
        samples: count('sample.collected'),
        readings: count('reading.taken'),
        deviations: count('deviation.recorded'),
        photos: count('photo.taken'),
      },
    ]
  })
  return work.toSorted((a, b) => early(a.from, b.from))
}

/** Whoever wrote last at a stop that is begun and not finished. */
export function handAtWork(state: InvestigationState, at: StopAt): Hand | undefined {
  return isUnderWay(visitAt(state, at))
    ? workAt(state, at)
        .toSorted((a, b) => early(a.to, b.to))
        .at(-1)?.hand
    : undefined
}

const isUnderWay = (visit: StopVisit | undefined): boolean => visit !== undefined && visit.finished === undefined

function entriesOf(visit: StopVisit): EffectiveEntry[] {
  const { started, finished, steps, samples, readings, deviations, photos } = visit
  return [started, finished, ...steps, ...samples, ...readings, ...deviations, ...photos].filter(
    (entry) => entry !== undefined,
  )
}

function handOf(state: InvestigationState, { author, device }: { author: string; device: string }): Hand {
  const deviceName = state.devices.get(device)?.name
  return deviceName === undefined ? { author, device } : { author, device, deviceName }
}

const titleOf = (state: InvestigationState, at: StopAt): string => findStop(state, at)?.stop.title ?? at.stop

const keyOf = ({ author, device }: { author: string; device: string }): string => `${device} ${author}`

const early = (a: string, b: string): number => Date.parse(a) - Date.parse(b)
