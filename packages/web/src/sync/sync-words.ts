import { counted } from '@rillmark/casebook/units/counted.ts'
import { type PhotoStanding, photoWords } from './photo-words.ts'

/** Where the entries of one investigation stand on this device. */
export interface Standing {
  /** confirmed by the server and held here */
  readonly confirmed: number
  /** written here, on their way */
  readonly pending: number
  readonly refused: number
  /** `not let in`: the server answers, and wants this device to join first */
  readonly connection: 'unknown' | 'up' | 'down' | 'parted' | 'not let in'
  /** of this device, whichever investigation they belong to */
  readonly photos?: PhotoStanding
}

/** The standing in one short sentence for the top bar, and the photos still to send after it. */
export function syncWords(standing: Standing): string {
  const photos = standing.photos === undefined ? '' : photoWords(standing.photos)
  return photos === '' ? entryWords(standing) : `${entryWords(standing)} · ${photos}`
}

function entryWords({ confirmed, pending, refused, connection }: Standing): string {
  const held = confirmed + pending + refused
  if (connection === 'parted') return 'This device and the server hold different records: export this one'
  if (refused > 0) return `${counted(refused, ENTRY)} ${refused === 1 ? 'was' : 'were'} refused: see Record`
  if (connection === 'not let in')
    return `The server does not let this device in · ${counted(held, ENTRY)} safe on this device`
  if (connection === 'down')
    return `No connection · ${pending === 0 ? 'nothing waits' : `${counted(pending, ENTRY)} ${pending === 1 ? 'waits' : 'wait'}, safe here`}`
  if (pending > 0) return `${counted(pending, ENTRY)} ${pending === 1 ? 'waits' : 'wait'} on this device`
  if (connection === 'unknown') return `${counted(held, ENTRY)} on this device`
  if (confirmed === 0) return 'Nothing written yet'
  return confirmed === 1 ? '1 entry is on the server' : `All ${confirmed} entries are on the server`
}

const ENTRY = { one: 'entry', many: 'entries' }
