import { readKept } from '../store/keep.ts'

/**
 * A still of a screen of an investigation: what it showed when it had settled, with all left out that depends on the time or was only typed. At
 * the next opening it is on the glass before the app is alive.
 */
export interface Still {
  /** the build that drew it */
  readonly build: string
  readonly place: string
  readonly width: number
  readonly settings: string
  readonly html: string
}

/** What a still was drawn from: as many links, and these entries waiting, in the order of the outbox. */
export interface Standing {
  readonly links: number
  readonly waiting: readonly string[]
}

/** What a screen was drawn from, as its tab had it: of what waits, the refused ones are not in the record it shows. */
export interface DrawnFrom extends Standing {
  readonly refused: readonly string[]
}

/** A still of one version of what is shown; `keptOf` says what the same one was drawn from when it was last kept. */
export interface DrawnStill {
  readonly still: Still
  readonly version: number
  readonly keptOf?: DrawnFrom | undefined
}

export type KeptStill = Still & Standing

/** Where it is noted of which place the last still is, to be known at once at the opening. */
export const STILL_HINT = 'still'

/** Where it is kept, among what this device is; in the one database of the record, so that both change in one stroke or neither. */
export const stillKey = (investigation: string): string => `${STILLS}${investigation}`
const STILLS = 'still '

/** The keys of all of them, as a range. */
export const allStills = (): IDBKeyRange => IDBKeyRange.bound(STILLS, `${STILLS}\uffff`)

/**
 * Screens whose stills say the same at any time of day: what depends on it is marked (`data-still`) and left out, which a test holds them to. On
 * custody, control and follow-up most of what is said depends on the time, so they have none.
 */
const SCREENS: ReadonlySet<string> = new Set(['brief', 'cases', 'building', 'plan', 'fieldwork', 'results', 'findings'])
const PLACE = /^\/i\/([^/]+)\/([a-z-]+)$/

/** The investigation of an address whose screen can have a still; undefined for all others. */
export function investigationOfStill({ pathname, search, hash }: Pick<Location, 'pathname' | 'search' | 'hash'>) {
  const [, investigation, screen = ''] = PLACE.exec(pathname) ?? []
  if (investigation === undefined || !SCREENS.has(screen) || search + hash !== '') return undefined
  return decodeURIComponent(investigation)
}

/** What of this device and its preferences shows on a screen, beside the record. */
export function settingsHere(): string {
  const { theme = '' } = document.documentElement.dataset
  return JSON.stringify([theme, new Date().getTimezoneOffset(), ...['units', 'author', 'clockAheadS'].map(readKept)])
}

/** Whether a still shows what the app itself will show in a moment. */
export function isOfNow(still: KeptStill, now: Omit<KeptStill, 'html'>): boolean {
  const { build, place, width, settings, links, waiting } = now
  return (
    still.build === build &&
    still.place === place &&
    still.width === width &&
    still.settings === settings &&
    sameStanding(still, { links, waiting })
  )
}

function sameStanding(one: Standing, other: Standing): boolean {
  return one.links === other.links && sameIds(one.waiting, other.waiting)
}

export function sameDrawnFrom(one: DrawnFrom, other: DrawnFrom): boolean {
  return sameStanding(one, other) && sameIds(one.refused, other.refused)
}

function sameIds(some: readonly string[], others: readonly string[]): boolean {
  return some.length === others.length && some.every((id, at) => id === others[at])
}

/** A still out of its text; undefined for anything else. */
export function stillFrom(text: unknown): KeptStill | undefined {
  if (typeof text !== 'string') return undefined
  try {
    const still = JSON.parse(text) as Partial<KeptStill> | null
    return typeof still?.html === 'string' && Array.isArray(still.waiting) ? (still as KeptStill) : undefined
  } catch {
    return undefined
  }
}
