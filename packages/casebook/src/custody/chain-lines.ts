import { happenedAt } from './happened-at.ts'
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
  readonly notes?: string
  /** entry that says so; the first of several packed in a row */
  readonly entry: string
}

type Event = Consignment['events'][number]

/** The chain of custody of a consignment, in order of what happened; samples packed one after another are one line. */
export function chainLines(box: Consignment): ChainLine[] {
  const opened: ChainLine = {
    at: box.opened.instant,
    offset: box.opened.offset,
    what: `${box.opened.body.container} opened`,
    entry: box.opened.id,
  }
  const lines = groupsOf(box.events).map(({ first, labels }) => lineOf(first, labels))
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

function lineOf(event: Event, labels: readonly string[]): ChainLine {
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
      return { ...line, what: 'temperature logged', ...temperature(event.body), ...noted(event.body.where) }
    case 'consignment.handed-over': {
      const { from, to, sealIntact, notes } = event.body
      return { ...line, what: 'handed over', from, to, sealIntact, ...temperature(event.body), ...noted(notes) }
    }
    case 'consignment.received': {
      const { laboratory, receivedBy, sealIntact } = event.body
      return { ...line, what: `received by ${laboratory}`, to: receivedBy, sealIntact, ...temperature(event.body) }
    }
  }
}

const temperature = ({ temperatureC }: { temperatureC?: number | undefined }): { temperatureC?: number } =>
  temperatureC === undefined ? {} : { temperatureC }

const noted = (notes: string | undefined): { notes?: string } => (notes === undefined ? {} : { notes })
