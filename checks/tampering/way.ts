import { canonicalJson } from '@rillmark/casebook/chain/canonical.ts'
import { emptyHead, type Head, type Link, linkEntries } from '@rillmark/casebook/chain/link.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'

/** One way to break a record that is sound. */
export interface Way {
  readonly title: string
  /** the link that must be named, counted from 1 */
  readonly breaksAt: number
  /** the way leaves a record that is sound in itself: only a head known from elsewhere (a printed report) betrays it */
  readonly needsHead?: true
  /** gives the broken record as links, or as text where the trick is in the writing */
  readonly tamper: (sound: Sound) => readonly unknown[] | string
}

export interface Sound {
  /** twelve links of Marram House, from a desk and a phone */
  readonly links: readonly Link[]
  /** twelve links of another investigation */
  readonly other: readonly Link[]
}

export const INVESTIGATION = 'marram-house'
const RECEIVED = ['2026-03-02T09:00:00.000Z', '2026-03-02T12:00:00.000Z', '2026-03-03T09:00:00.000Z']

export const sound: Sound = { links: recordOf(INVESTIGATION), other: recordOf('quay-hotel') }

function recordOf(investigation: string): Link[] {
  const entries = entriesOf(investigation)
  const links: Link[] = []
  for (const [batch, received] of RECEIVED.entries()) {
    const last = links.at(-1)
    const head: Head = last === undefined ? emptyHead(investigation) : { sequence: last.sequence, hash: last.hash }
    links.push(...linkEntries(head, { entries: entries.slice(batch * 4, batch * 4 + 4), received }))
  }
  return links
}

function entriesOf(investigation: string): Entry[] {
  const desk = entryMaker(investigation, { device: 'desk-1' })
  const phone = entryMaker(investigation, { device: 'phone-1' })
  const note = (text: string) => desk.make('note.written', { text, purpose: 'note' })
  const reading = (value: number) =>
    phone.make('reading.taken', {
      round: 'R1',
      stop: 'S1',
      quantity: 'hot-temperature',
      reading: { kind: 'value', value, unit: 'Cel' },
    })
  const first = note('called at nine')
  return [
    first,
    note('two cases, one building'),
    desk.make('case.recorded', {
      code: 'C1',
      onsetDate: '2026-02-20',
      classification: 'probable',
      link: 'possible',
      isolate: 'kept',
    }),
    reading(48.5),
    reading(51),
    desk.make(
      'note.written',
      { text: 'called at ten', purpose: 'note' },
      { entry: first.id, reason: 'clock was wrong' },
    ),
    reading(52.25),
    note('the é on the door is 60 °C'),
    desk.make('measure.ordered', {
      measure: 'flush',
      stage: 'immediate',
      where: 'riser A',
      owner: 'F. Moss',
      components: [],
    }),
    reading(53),
    note('the water person left'),
    note('end of the day'),
  ]
}

/** A changed copy of one link, the rest as they were. */
export function alter(
  links: readonly Link[],
  { at, change }: { at: number; change: (link: Loose) => void },
): unknown[] {
  const copy = structuredClone(links) as unknown as Loose[]
  const link = copy[at - 1]
  if (link === undefined) throw new RangeError(`Cannot alter link ${at} because there is none`)
  change(link)
  return copy
}

/** A link as a forger sees it: anything can be written anywhere. */
export type Loose = Record<string, unknown> & { entry: Record<string, unknown> & { body: Record<string, unknown> } }

/** Fresh numbers, ties and hashes for everything, as a forger with the code would make them; times of receipt stay. */
export function relink(entries: readonly Entry[], received: (index: number) => string = timeOf): Link[] {
  const links: Link[] = []
  for (const [index, entry] of entries.entries()) {
    const last = links.at(-1)
    const head: Head = last === undefined ? emptyHead(INVESTIGATION) : { sequence: last.sequence, hash: last.hash }
    links.push(...linkEntries(head, { entries: [entry], received: received(index) }))
  }
  return links
}

function timeOf(index: number): string {
  return RECEIVED[Math.floor(index / 4)] ?? RECEIVED.at(-1) ?? ''
}

export const entriesIn = (links: readonly Link[]): Entry[] => links.map(({ entry }) => entry)

/** The record as text with one line rewritten. */
export function rewrite(
  links: readonly Link[],
  { at, change }: { at: number; change: (line: string) => string },
): string {
  const lines = links.map((link) => canonicalJson(link))
  const line = lines[at - 1] ?? ''
  const changed = change(line)
  if (changed === line) throw new RangeError(`Cannot tamper with line ${at} because the change changes nothing`)
  return lines
    .toSpliced(at - 1, 1, changed)
    .map((each) => `${each}\n`)
    .join('')
}

/** Swaps two places of a list, counted from 1. */
export function swap<T>(list: readonly T[], { a, b }: { a: number; b: number }): T[] {
  const copy = [...list]
  const [first, second] = [copy[a - 1], copy[b - 1]]
  if (first === undefined || second === undefined) throw new RangeError('Cannot swap because a place is empty')
  copy[a - 1] = second
  copy[b - 1] = first
  return copy
}
