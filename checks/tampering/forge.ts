// What a forger does who rewrites the record and makes everything else afresh: numbers, ties, hashes, tree, tables, manifest.
import type { Link } from '@rillmark/casebook/chain/link.ts'
import { fromBase64url, toBase64url } from '@rillmark/casebook/devices/base64url.ts'
import { signedText, thumbprint } from '@rillmark/casebook/devices/signed-text.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { testKey } from '@rillmark/casebook/testing/test-key.ts'
import { linked, packageOf, PARTS } from '@rillmark/exchange/verify/verify.fixture.ts'
import { writePackage } from '@rillmark/exchange/package/write-package.ts'
import { entries, links } from './package-way.ts'

/** An entry as a forger sees it: anything can be written anywhere. */
export type Loose = Record<string, unknown> & {
  body: Record<string, unknown>
  signature: { key: string; value: string }
  corrects: { entry: string; reason: string }
  device: string
  deviceSequence: number
}

/** The record with its entries changed, and everything else made to fit. Signatures stay as they were. */
export function resealed(change: (list: Loose[]) => readonly unknown[]): Uint8Array {
  return packageOf(change(structuredClone(entries) as unknown as Loose[]) as Entry[])
}

/** One entry changed (counted from 1), its signature left. */
export function altered(at: number, change: (entry: Loose) => void): Uint8Array {
  return resealed((list) => {
    const entry = list[at - 1]
    if (entry === undefined) throw new RangeError(`Cannot alter entry ${at} because there is none`)
    change(entry)
    return list
  })
}

/** One entry changed and signed again by the key of a device, under the name of that key. */
export function resigned(at: number, { by, change }: { by: string; change: (entry: Loose) => void }): Uint8Array {
  return resealed((list) =>
    list.map((entry, index) => {
      if (index !== at - 1) return entry
      change(entry)
      return signedBy(by, entry)
    }),
  )
}

export function signedBy(device: string, entry: object): Loose {
  const { signature: _, ...bare } = entry as Loose
  return testKey(device).sign(bare) as unknown as Loose
}

/** The 64 bytes of one signature changed. */
export function bytesOfSignature(at: number, change: (bytes: Uint8Array) => Uint8Array): Uint8Array {
  return altered(at, (entry) => {
    entry.signature.value = toBase64url(change(fromBase64url(entry.signature.value) ?? new Uint8Array()))
  })
}

/** The signature over a text of the forger's choice, by the right key. */
export function signedOver(at: number, text: (entry: Loose) => string): Uint8Array {
  return altered(at, (entry) => {
    entry.signature.value = testKey(entry.device).signText(text(entry))
  })
}

export const textOf = (entry: Loose): string => signedText(entry)

/** What an entry says, and whatever else of it is to be so. */
type Said = { readonly kind: string; readonly body: object; readonly [name: string]: unknown }

/** One more entry by a device, continuing its numbers, signed by its key. */
export function nextBy(device: string, said: Said): Loose {
  return signedBy(device, unsignedNext(device, said))
}

export function unsignedNext(device: string, said: Said): Loose {
  const before = entries.filter((entry) => entry.device === device)
  const model = structuredClone(before.at(-1) ?? entries[0]) as unknown as Loose
  for (const name of ['signature', 'seen', 'corrects']) delete model[name]
  const deviceSequence = before.length === 0 ? 1 : model.deviceSequence + 1
  const id = `${deviceSequence.toString().padStart(8, '0')}-0000-8000-8000-${device.length.toString().padStart(12, '0')}`
  return { ...model, device, deviceSequence, id, ...said } as unknown as Loose
}

export const NOTE = { kind: 'note.written', body: { text: 'all was well', purpose: 'note' } }

/** How a device joins with a key; `by` is whose key. */
export function joinOf(device: string, { role, by }: { role: string; by: string }): Said {
  return { kind: 'device.joined', body: { name: device, role, key: testKey(by).key } }
}

export function keyOf(name: string) {
  const { key } = testKey(name)
  return { key, thumbprint: thumbprint(key) }
}

export function appended(...more: readonly Loose[]): Uint8Array {
  return resealed((list) => [...list, ...more])
}

export function dropped(at: number): Uint8Array {
  return resealed((list) => list.toSpliced(at - 1, 1))
}

export function moved(from: number, to: number): Uint8Array {
  return resealed((list) => {
    const [entry] = list.splice(from - 1, 1)
    return entry === undefined ? list : list.toSpliced(to - 1, 0, entry)
  })
}

/** Links changed as they are, hashes too; the rest of the package made to fit. */
export function relinked(change: (list: (Link & Record<string, unknown>)[]) => void): Uint8Array {
  const copy = structuredClone(links) as (Link & Record<string, unknown>)[]
  change(copy)
  return writePackage(copy, PARTS)
}

/** Fresh hashes over entries, with a say in each link before it is hashed. */
export const freshLinks = (list: readonly unknown[]): Link[] => linked(list as Entry[])
