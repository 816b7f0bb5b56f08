import { emptyHead, headAfter, type Link, linkEntries } from '../chain/link.ts'
import type { Entry } from '../entry/entry.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import { testKey } from '../testing/test-key.ts'

export const LABEL = 'MH-R1-01'
export const OTHER_LABEL = 'MH-R1-02'

/** A small record: a desk and a phone that sign, a sample taken, packed and received, one amendment, another sample beside it. */
export function signedRecord(investigation = 'marram-house', more = 0): Link[] {
  const [desk, phone] = [writer(investigation, 'desk-1'), writer(investigation, 'phone-1')]
  const sample = (label: string) =>
    phone.write('sample.collected', {
      label,
      round: 'R1',
      stop: 'S1',
      sampleKind: 'bulk-hot',
      volumeMl: 1000,
      filter: 'none',
    })
  const entries: Entry[] = [desk.join('lead'), phone.join('sampler')]
  const first = sample(LABEL)
  entries.push(first, sample(OTHER_LABEL))
  entries.push(phone.write('sample.packed', { consignment: 'B1', label: LABEL }))
  entries.push(
    phone.write(
      'sample.collected',
      { label: LABEL, round: 'R1', stop: 'S1', sampleKind: 'bulk-hot', volumeMl: 500, filter: 'none' },
      { entry: first.id, reason: 'half a bottle' },
    ),
  )
  entries.push(desk.write('note.written', { text: 'called the laboratory', purpose: 'note' }))
  for (let count = 0; count < more; count += 1)
    entries.push(desk.write('note.written', { text: `later ${count}`, purpose: 'note' }))
  return linked(investigation, entries)
}

function writer(investigation: string, device: string) {
  const { make } = entryMaker(investigation, { device })
  const { key, sign } = testKey(device)
  const write: typeof make = (...given) => sign(make(...given))
  const join = (role: 'lead' | 'sampler') => write('device.joined', { name: device, role, key })
  return { write, join }
}

function linked(investigation: string, entries: readonly Entry[]): Link[] {
  const links: Link[] = []
  for (const entry of entries) {
    const head = headAfter(emptyHead(investigation), links)
    links.push(...linkEntries(head, { entries: [entry], received: '2026-03-02T12:00:00.000Z' }))
  }
  return links
}
