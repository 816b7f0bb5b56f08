import type { DevicesState } from './state.ts'
import { thumbprint } from './signed-text.ts'

const SERVER = 'server'
const LABORATORY = 'laboratory-link-'
/** So much of the thumbprint of its key tells one server from another. */
const KEY_SHOWN = 8
const OWN_NAME = /^(server(-[0-9a-f]{8})?|laboratory-link-.*)$/s

/**
 * What a server calls itself in a record. One that came from another server, or from before the key was lost, knows that one as `server`:
 * this one then joins beside it.
 *
 * @param key the thumbprint of its key
 */
export function serverDevice(devices: DevicesState, key: string): string {
  const known = devices.get(SERVER)
  return known === undefined || thumbprint(known.key) === key ? SERVER : `${SERVER}-${key.slice(0, KEY_SHOWN)}`
}

/** As whom a laboratory writes through the link of this number. */
export function laboratoryDevice(link: number): string {
  return `${LABORATORY}${link}`
}

/** The highest number of a link a laboratory wrote through in this record; 0 where none did. */
export function lastLaboratoryLink(devices: DevicesState): number {
  const numbers = [...devices.keys()].flatMap((id) =>
    id.startsWith(LABORATORY) && /^\d+$/.test(id.slice(LABORATORY.length)) ? [Number(id.slice(LABORATORY.length))] : [],
  )
  return Math.max(0, ...numbers.filter(Number.isSafeInteger))
}

/** Whether a device may not go by this name, because servers write under it: as themselves, or for the laboratories with their links. */
export function isServersName(device: string): boolean {
  return OWN_NAME.test(device)
}
