import type { Copy, LetGo } from './kept-copies.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'

const PHOTO = { one: 'photo', many: 'photos' }
const ENTRY = { one: 'entry', many: 'entries' }

/** What is on this device of an investigation, in one line. `moment` puts an instant into words. */
export function copyWords(copy: Copy, moment: (instant: string) => string): string {
  if (copy.kind === 'not here') return 'Not on this device'
  if (copy.kind === 'opened') return 'Entries on this device, photos on the server'
  const { here, of } = copy.photos
  if (copy.upToDate === undefined) return 'Being fetched to this device'
  const until = `up to date ${moment(copy.upToDate)}`
  if (here < of) return `Kept on this device, ${here} of ${counted(of, PHOTO)} so far · ${until}`
  return of === 0
    ? `Whole copy on this device · ${until}`
    : `Whole copy on this device, ${counted(of, PHOTO)} included · ${until}`
}

/** Why an investigation is not let go. */
export function stillWaitingWords({ entries, photos }: Extract<LetGo, { ok: false }>): string {
  const waiting = [entries > 0 && counted(entries, ENTRY), photos > 0 && counted(photos, PHOTO)].filter(
    (part) => part !== false,
  )
  const one = entries + photos === 1
  return `Not let go: ${waiting.join(' and ')} of it ${one ? 'is' : 'are'} only on this device. Let ${one ? 'it' : 'them'} reach the server, or settle what it refused (see Record), then try again.`
}
