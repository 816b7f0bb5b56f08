import { counted } from '../units/counted.ts'
import { happenedAt } from './happened-at.ts'
import { acceptanceOf } from './holder.ts'
import type { HandOverSignature } from './kinds.ts'
import type { Consignment } from './state.ts'

/** One line of the chain of custody. */
export interface ChainLine {
  readonly at: string
  readonly offset: string
  readonly what: string
  readonly from?: { readonly name: string; readonly role: string }
  readonly to?: { readonly name: string; readonly role: string }
  readonly sealIntact?: boolean
  readonly temperatureC?: number
  /** coldest and warmest of a logger's readings */
  readonly temperatureRangeC?: readonly [number, number]
  /** how the receiver said so; of a hand-over only */
  readonly signed?: SignedState
  /** SHA-256 of the picture that shows it: a drawn signature, a paper form */
  readonly picture?: string
  readonly notes?: string
  /** entry that says so; the first of several packed in a row */
  readonly entry: string
}

/** Whether both halves of a hand-over are there, in words. */
export type SignedState =
  | 'signed on the glass'
  | 'signed on paper'
  | "accepted on the receiver's device"
  | 'by half: not yet accepted by the receiver'
  | 'no signature'

type Event = Consignment['events'][number]

/** The chain of custody of a consignment, in order of what happened; samples packed one after another are one line. */
export function chainLines(box: Consignment): ChainLine[] {
  const opened: ChainLine = {
    at: box.opened.instant,
    offset: box.opened.offset,
    what: `${box.opened.body.container} opened`,
    entry: box.opened.id,
  }
  const lines = groupsOf(box.events).map(({ first, labels }) => lineOf(box, { event: first, labels }))
  return [opened, ...lines].sort((a, b) => Date.parse(a.at) - Date.parse(b.at))
}

interface Group {
  readonly first: Event
  readonly labels: string[]
}

function groupsOf(events: readonly Event[]): Group[] {
  const groups: Group[] = []
  for (const event of events) {
    const last = groups.at(-1)
    if (event.kind === 'sample.packed' && last?.first.kind === 'sample.packed') last.labels.push(event.body.label)
    else groups.push({ first: event, labels: event.kind === 'sample.packed' ? [event.body.label] : [] })
  }
  return groups
}

function lineOf(box: Consignment, { event, labels }: { event: Event; labels: readonly string[] }): ChainLine {
  const line = { at: happenedAt(event), offset: event.offset, entry: event.id }
  switch (event.kind) {
    case 'sample.packed':
      return { ...line, what: labels.length === 1 ? `${labels[0]} packed` : `${labels.length} samples packed` }
    case 'sample.unpacked':
      return { ...line, what: `${event.body.label} taken out`, notes: event.body.reason }
    case 'consignment.sealed':
      return { ...line, what: `sealed, ${event.body.seal}`, ...temperature(event.body) }
    case 'seal.opened':
      return { ...line, what: 'seal opened', from: event.body.by, notes: event.body.reason }
    case 'temperature.logged':
      return { ...line, ...logged(event.body), ...noted(event.body.where) }
    case 'consignment.handed-over': {
      const { from, to, sealIntact, notes, signedBy } = event.body
      const how = { signed: signedState(box, event), ...pictureOf(signedBy) }
      return { ...line, what: 'handed over', from, to, sealIntact, ...temperature(event.body), ...how, ...noted(notes) }
    }
    case 'consignment.accepted': {
      const { by, sealIntact, notes } = event.body
      return {
        ...line,
        what: 'accepted on their own device',
        to: by,
        sealIntact,
        ...temperature(event.body),
        ...noted(notes),
      }
    }
    case 'consignment.received': {
      const { laboratory, receivedBy, sealIntact, sealRead } = event.body
      const read = sealRead === undefined ? undefined : `seal read as ${sealRead}`
      return {
        ...line,
        what: `received by ${laboratory}`,
        to: receivedBy,
        sealIntact,
        ...temperature(event.body),
        ...noted(read),
      }
    }
  }
}

function logged({ temperatureC, series }: Extract<Event, { kind: 'temperature.logged' }>['body']): {
  what: string
  temperatureC?: number
  temperatureRangeC?: [number, number]
} {
  if (series === undefined) return { what: 'temperature logged', ...temperature({ temperatureC }) }
  const { piece } = series
  const part = piece === undefined || piece.of === 1 ? '' : `, piece ${piece.number} of ${piece.of}`
  return {
    what: `logger read, ${counted(series.seconds.length, 'reading')}${part}`,
    temperatureRangeC: [Math.min(...series.temperatureC), Math.max(...series.temperatureC)],
  }
}

/** Whether both sides of a hand-over stand in the record, and how. */
function signedState(box: Consignment, { id, body }: Extract<Event, { kind: 'consignment.handed-over' }>): SignedState {
  const way = body.signedBy?.way
  if (way === 'drawn') return 'signed on the glass'
  if (way === 'paper') return 'signed on paper'
  if (way === undefined) return 'no signature'
  return acceptanceOf(box, id) === undefined
    ? 'by half: not yet accepted by the receiver'
    : "accepted on the receiver's device"
}

const pictureOf = (signedBy: HandOverSignature | undefined): { picture?: string } =>
  signedBy === undefined || signedBy.way === 'device' ? {} : { picture: signedBy.sha256 }

const temperature = ({ temperatureC }: { temperatureC?: number | undefined }): { temperatureC?: number } =>
  temperatureC === undefined ? {} : { temperatureC }

const noted = (notes: string | undefined): { notes?: string } => (notes === undefined ? {} : { notes })
