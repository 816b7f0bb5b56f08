import { emptyHead, type Link, linkEntries, sha256OfBytes } from '@rillmark/casebook/chain/link.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate'
import { writePackage } from './write-package.ts'

/** The smallest picture a test needs: the eight opening bytes of a PNG and something after them. */
export const PICTURE = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 1, 2, 3)

export function recordWithPicture(): { links: Link[]; attachments: Map<string, Uint8Array> } {
  const { make } = entryMaker('marram-house')
  const sha256 = sha256OfBytes(PICTURE)
  const entries = [
    make('investigation.opened', {
      title: 'Marram House',
      setting: 'hotel',
      openedOn: '2026-03-02',
      reason: 'two cases',
    }),
    make('case.recorded', { code: 'C1', classification: 'probable', link: 'possible', isolate: 'kept' }),
    make('exposure.recorded', {
      caseCode: 'C1',
      place: '=cmd()|x',
      kind: 'stay',
      from: '2026-02-10',
      to: '2026-02-14',
    }),
    make('photo.taken', {
      round: 'R1',
      stop: 'S1',
      sha256,
      mediaType: 'image/png',
      bytes: PICTURE.length,
      shows: 'tap',
    }),
  ]
  const links = linkEntries(emptyHead('marram-house'), { entries, received: '2026-03-02T09:00:00.000Z' })
  return { links, attachments: new Map([[sha256, PICTURE]]) }
}

export const soundPackage = (): Uint8Array => {
  const { links, attachments } = recordWithPicture()
  return writePackage(links, { attachments })
}

/** A package with its files changed by hand; the manifest is made to agree where `agree` says so. */
export function forged(change: (files: Record<string, Uint8Array>) => void, { agree = false } = {}): Uint8Array {
  const files = unzipSync(soundPackage())
  change(files)
  if (agree) {
    const manifest = JSON.parse(strFromU8(files['manifest.json'] ?? new Uint8Array())) as { files: object[] }
    manifest.files = Object.entries(files)
      .filter(([path]) => path !== 'manifest.json')
      .map(([path, bytes]) => ({ path, bytes: bytes.length, sha256: sha256OfBytes(bytes) }))
    files['manifest.json'] = strToU8(JSON.stringify(manifest))
  }
  return zipSync(files)
}
