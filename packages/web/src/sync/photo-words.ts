import { counted } from '@rillmark/casebook/units/counted.ts'

/** The photos of this device that the server has not, and what of them is still to go. */
export interface PhotoStanding {
  readonly count: number
  readonly bytes: number
  /** why they do not go, where it is not the network */
  readonly trouble?: string
}

const MB = 1_000_000
const KB = 1000

/** '2 photos, 3.1 MB still to send'; empty where none waits. */
export function photoWords({ count, bytes, trouble }: PhotoStanding): string {
  if (count === 0) return ''
  const waiting = `${counted(count, { one: 'photo', many: 'photos' })}, ${sizeWords(bytes)} still to send`
  return trouble === undefined ? waiting : `${waiting}: ${trouble}`
}

function sizeWords(bytes: number): string {
  return bytes < MB ? `${Math.ceil(bytes / KB)} kB` : `${(Math.ceil(bytes / (MB / 10)) / 10).toFixed(1)} MB`
}
