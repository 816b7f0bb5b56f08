import type { BodyOf } from '@rillmark/casebook/entry/kinds.ts'
import { seededRandom } from '@rillmark/science/random/random-source.ts'
import { signingHand } from '../../tests/faults/signing-hand.ts'
import { type TestPhoto, testPhoto } from '../../tests/faults/test-photo.ts'
import { chance } from '../../tests/faults/seed.ts'

/** How much is sent, by how many. A smaller scale is for working on it; what is recorded is the whole. */
const SCALE = Number(process.env['RILLMARK_SYNC_SCALE'] ?? 1)
export const DEVICES = 200
const INVESTIGATIONS = 20
const ENTRIES_A_DEVICE = Math.max(10, Math.round(250 * SCALE))
const PHOTOS_A_DEVICE = Math.max(1, Math.round(5 * SCALE))
/** 2 GB in a thousand photos, as phones make them. */
const PHOTO_BYTES = 2_000_000
/** As many as the app sends at once. */
export const BATCH = 50
/** which entry of each batch is a case that another device tells too */
const TOLD_TWICE_AT = 20
const SEED = 7

/** What one device has to send when it comes back. */
export interface Load {
  readonly investigation: string
  /** bodies of the requests, ready to send */
  readonly batches: readonly string[]
  readonly photos: readonly TestPhoto[]
  /** when it comes back, as a part of the time over which all of them do */
  readonly arrives: number
}

/** Everything is made and signed before the clock runs. Several devices share a photo buffer's noise, none shares a photo. */
export function makeLoads(): Load[] {
  const random = seededRandom(SEED)
  return Array.from({ length: DEVICES }, (_, n) => {
    const investigation = `sync-${n % INVESTIGATIONS}`
    const { make, joined } = signingHand({ investigation, device: `phone-${n}` })
    const entries = [joined()]
    while (entries.length < ENTRIES_A_DEVICE) {
      const at = entries.length
      if (at % BATCH === TOLD_TWICE_AT) entries.push(make('case.recorded', caseTold({ n, at }), { seen: 0 }))
      else entries.push(make('note.written', { text: noteText(at), purpose: 'note' }))
    }
    const batches: string[] = []
    for (let at = 0; at < entries.length; at += BATCH)
      batches.push(JSON.stringify({ entries: entries.slice(at, at + BATCH) }))
    const photos = Array.from({ length: PHOTOS_A_DEVICE }, (_, p) => testPhoto(PHOTO_BYTES, chance(n * 100 + p)))
    return { investigation, batches, photos, arrives: random.uniform() }
  })
}

/** A case that a second device of the same investigation tells too, neither having seen what the other wrote: whoever comes later, is contested. */
function caseTold({ n, at }: { n: number; at: number }): BodyOf<'case.recorded'> {
  const pair = Math.floor(n / INVESTIGATIONS) % (DEVICES / INVESTIGATIONS / 2)
  const code = `K-${pair}-${Math.floor(at / BATCH)}`
  return { code, classification: 'probable', link: 'not judged', isolate: 'not known', notes: `as phone-${n} tells it` }
}

function noteText(n: number): string {
  return `Reading ${n} at the far end of the north riser: the water ran warm after ninety seconds, and the tap drips. ${'Checked twice. '.repeat(10)}`
}

export function totals(loads: readonly Load[]): { entries: number; entryBytes: number; photoBytes: number } {
  const sum = (of: (load: Load) => number): number => loads.reduce((all, each) => all + of(each), 0)
  return {
    entries: DEVICES * ENTRIES_A_DEVICE,
    entryBytes: sum(({ batches }) => batches.reduce((all, { length }) => all + length, 0)),
    photoBytes: sum(({ photos }) => photos.reduce((all, { content }) => all + content.length, 0)),
  }
}
