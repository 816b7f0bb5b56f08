import { emptyHead, headAfter, type Link, linkEntries, sha256OfBytes } from '@rillmark/casebook/chain/link.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { testKey } from '@rillmark/casebook/testing/test-key.ts'
import { strToU8 } from 'fflate'
import { type PackageParts, writePackage } from '../package/write-package.ts'

/** A PNG's opening bytes and something after them; another of the same kind and size. */
export const PICTURE = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 1, 2, 3)
export const OTHER_PICTURE = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 3, 2, 1)
export const REPORT = strToU8('%PDF-1.7\n% the report as it was issued\n')
export const LABEL = 'MH-R1-01'
export const OTHER_LABEL = 'MH-R1-02'
export const REPORT_NAME = 'issued-18-full.pdf'

/** A clock that ran an hour ahead, on the phone. */
const AHEAD_S = 3600

/** Someone who writes on a device, with that device's key. */
export function writer(investigation: string, device: string) {
  const { make } = entryMaker(investigation, { device })
  const { key, sign, secret } = testKey(device)
  const write = <K extends Entry['kind']>(
    kind: K,
    body: Extract<Entry, { kind: K }>['body'],
    more: { corrects?: { entry: string; reason: string }; seen?: number } = {},
  ): Entry => {
    const entry = make(kind, body as never, more.corrects)
    return sign({ ...entry, ...(more.seen === undefined ? {} : { seen: more.seen }) }) as unknown as Entry
  }
  const join = (role: 'lead' | 'sampler' | 'reader' | 'server', seen = 0): Entry =>
    write('device.joined', { name: device, role, key }, { seen })
  return { make, write, join, key, sign, secret }
}

const OPENED = {
  title: 'Marram House',
  setting: 'hotel',
  openedOn: '2026-03-02',
  reason: 'two cases',
} as const
const RESULT = {
  label: LABEL,
  laboratory: 'Quay Laboratory',
  method: 'culture',
  target: 'Legionella',
  value: { kind: 'below', limit: 10, unit: 'CFU/L' },
  status: 'final',
  reportedOn: '2026-03-12',
} as const

/** What two phones, a desk, a server and an old desk without a key wrote: everything a package can hold, in 22 entries. */
export function signedEntries(investigation = 'marram-house'): Entry[] {
  const old = entryMaker(investigation, { device: 'desk-0' })
  const server = writer(investigation, 'server')
  const desk = writer(investigation, 'desk-1')
  const phone = writer(investigation, 'phone-1')
  const second = writer(investigation, 'phone-2')
  const tablet = writer(investigation, 'tablet-1')
  const stop = { round: 'R1', stop: 'S1' }
  const bottle = (label: string, volumeMl = 1000) =>
    ({ ...stop, label, sampleKind: 'bulk-hot', volumeMl, filter: 'none' }) as const
  const joins = [server.join('server'), desk.join('lead'), phone.join('sampler'), second.join('sampler')]
  const sample = phone.write('sample.collected', bottle(LABEL), { seen: 7 })
  const other = phone.write('sample.collected', bottle(OTHER_LABEL), { seen: 7 })
  const reading = { kind: 'value', value: 48.5, unit: 'Cel' } as const
  const picture = { sha256: sha256OfBytes(PICTURE), mediaType: 'image/png', bytes: PICTURE.length } as const
  const photo = phone.write('photo.taken', { ...stop, ...picture, shows: 'tap' }, { seen: 7 })
  const taken = second.write('reading.taken', { ...stop, quantity: 'hot-temperature', reading }, { seen: 7 })
  const packed = phone.write('sample.packed', { consignment: 'B1', label: LABEL }, { seen: 9 })
  const late = second.write('sample.packed', { consignment: 'B2', label: LABEL }, { seen: 9 })
  const against = { path: 'body.label', expected: 'a sample not packed yet', received: LABEL }
  return [
    old.make('investigation.opened', OPENED) as Entry,
    ...joins,
    desk.write('case.recorded', { code: 'C1', classification: 'probable', link: 'possible', isolate: 'kept' }),
    desk.write('exposure.recorded', {
      caseCode: 'C1',
      place: '=cmd()|x',
      kind: 'stay',
      from: '2026-02-10',
      to: '2026-02-14',
    }),
    sample,
    other,
    photo,
    taken,
    packed,
    server.write('entry.contested', { entry: late, issues: [against], against: [packed.id] }),
    desk.write(
      'contest.settled',
      { contested: late.id, decision: 'first stands', reason: 'seen by both' },
      { seen: 13 },
    ),
    desk.write('measure.ordered', {
      measure: 'flush',
      stage: 'immediate',
      where: 'riser A',
      owner: 'F. Moss',
      components: [],
    }),
    desk.write('device.revoked', { device: 'phone-2', reason: 'lost on the ferry' }, { seen: 15 }),
    tablet.join('reader', 16),
    desk.write('report.issued', {
      variant: 'full',
      headSequence: 17,
      headHash: '0'.repeat(64),
      sha256: sha256OfBytes(REPORT),
      issuedTo: 'the owner',
    }),
    phone.write('sample.collected', bottle(LABEL, 500), {
      corrects: { entry: sample.id, reason: 'half a bottle' },
      seen: 12,
    }),
    desk.write('result.reported', RESULT),
    desk.write('note.written', { text: 'the é on the door is 60 °C', purpose: 'note' }, { seen: 20 }),
    desk.write('note.written', { text: 'end of the day', purpose: 'note' }, { seen: 21 }),
  ]
}

/** Numbers, ties and hashes for entries, as a server gives them: one by one, the phone's clock measured. */
export function linked(entries: readonly Entry[], received = '2026-03-02T12:00:00.000Z'): Link[] {
  const links: Link[] = []
  for (const entry of entries) {
    const head = headAfter(emptyHead(entries[0]?.investigation ?? ''), links)
    const ahead = ({ device }: Entry): number | undefined => (device === 'phone-1' ? AHEAD_S : undefined)
    links.push(...linkEntries(head, { entries: [entry], received, ahead }))
  }
  return links
}

export const PARTS: PackageParts = {
  attachments: new Map([[sha256OfBytes(PICTURE), PICTURE]]),
  reports: new Map([[REPORT_NAME, REPORT]]),
  verifier: strToU8('<!doctype html><title>Verifier</title>\n'),
}

export function packageOf(entries: readonly Entry[]): Uint8Array {
  return writePackage(linked(entries), PARTS)
}
