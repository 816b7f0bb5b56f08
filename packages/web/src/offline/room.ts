/** What the browser gives this app to keep things in, and how much of it is taken. */
export interface Room {
  readonly usedBytes: number
  readonly leftBytes: number
  /** whether some room is held back for entries; false where there was none left to hold, undefined where that is not known */
  readonly reserved?: boolean | undefined
}

export type RoomStanding = 'plenty' | 'low' | 'full'

const MB = 1024 ** 2
const GB = 1024 ** 3
/** Below this it is said, long before it hurts: ten photos of the largest size. Our own choice, no source. */
const LOW_BYTES = 200 * MB
/** Kept free for entries, which are small: no photo is taken in that would leave less. Our own choice, no source. */
export const RESERVED_BYTES = 20 * MB

export function roomStanding({ leftBytes, reserved }: Room): RoomStanding {
  if (reserved === false) return 'full'
  return leftBytes < RESERVED_BYTES ? 'full' : leftBytes < LOW_BYTES ? 'low' : 'plenty'
}

export const MAKE_ROOM =
  'Send what waits, let go of an investigation you no longer need here, or free space on the device'

/** A warning in words; undefined while there is plenty of room. */
export function roomWarning(room: Room): string | undefined {
  const standing = roomStanding(room)
  if (standing === 'plenty') return undefined
  const left = bytesWords(room.leftBytes)
  return standing === 'low'
    ? `This device is nearly full: room for ${left} more. ${MAKE_ROOM}.`
    : `This device is full: what little is left is for entries; photos no longer fit. ${MAKE_ROOM}.`
}

/** Why a photo of this size is not taken in; undefined where it leaves enough for entries. */
export function photoFitsIssue({ leftBytes, reserved }: Room, photoBytes: number): string | undefined {
  if (reserved !== false && leftBytes - photoBytes >= RESERVED_BYTES) return undefined
  return `The photo was not kept: this device is full, and the last of its room is for entries. ${MAKE_ROOM}, then keep it again.`
}

export function bytesWords(bytes: number): string {
  if (bytes < MB) return 'less than 1 MB'
  if (bytes < GB) return `${Math.floor(bytes / MB)} MB`
  return `${(Math.floor((bytes / GB) * 10) / 10).toString()} GB`
}

/** What the browser says when it has no more room (HTML and Storage standards: QuotaExceededError). */
export function isFull(error: unknown): boolean {
  return error instanceof Error && error.name === 'QuotaExceededError'
}
