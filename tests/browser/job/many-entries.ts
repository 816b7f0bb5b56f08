// oxlint-disable typescript/no-non-null-assertion -- every index is one of the devices made here
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { emptyHead, linkEntries } from '@rillmark/casebook/chain/link.ts'
import { writePackage } from '@rillmark/exchange/package/write-package.ts'
import { signingHand } from '../../faults/signing-hand.ts'

const DEVICES = 40
const STOPS = 400

/** The package of a long investigation: phones that took readings, samples and notes, every entry signed. */
export function largePackage(count: number): { bytes: Uint8Array; entries: number } {
  const investigation = 'long-investigation'
  const hands = Array.from({ length: DEVICES }, (_, n) => signingHand({ investigation, device: `phone-${n}` }))
  const entries: Entry[] = hands.map(({ joined }) => joined())
  while (entries.length < count) {
    const n = entries.length
    const { make } = hands[n % DEVICES]!
    const at = { round: 'R1', stop: `S${n % STOPS}` }
    if (n % 10 === 0) entries.push(make('sample.collected', sample(n, at)))
    else if (n % 10 === 5) entries.push(make('note.written', { text: `Note ${n}: the tap drips`, purpose: 'note' }))
    else
      entries.push(
        make('reading.taken', {
          ...at,
          quantity: 'hot-temperature',
          reading: { kind: 'value', value: 40 + (n % 200) / 10, unit: 'Cel' },
        }),
      )
  }
  const received = '2026-06-02T12:00:00.000Z'
  const links = linkEntries(emptyHead(investigation), { entries, received })
  return { bytes: writePackage(links, { attachments: new Map() }), entries: links.length }
}

function sample(n: number, at: { round: string; stop: string }) {
  return { ...at, label: `LI-R1-${n}`, sampleKind: 'bulk-hot', volumeMl: 1000, filter: 'none' } as const
}
