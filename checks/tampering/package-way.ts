import { emptyHead, headAfter, type Link } from '@rillmark/casebook/chain/link.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import type { Layer } from '@rillmark/exchange/verify/verdict.ts'
import { linked, packageOf, signedEntries } from '@rillmark/exchange/verify/verify.fixture.ts'

/** One way to tamper with a package. */
export interface PackageWay {
  readonly title: string
  /** the layer that must catch it */
  readonly layer: Layer
  /** what must stand in that layer's finding: where it is, or what is wrong there */
  readonly names: string
  /**
   * The way leaves a package that is sound in itself. `head`: only a head or a receipt known from elsewhere betrays it. `caution`: it is
   * said, in the words of `names`, that this can't be checked.
   */
  readonly needs?: 'head' | 'caution'
  readonly tamper: () => Uint8Array
}

const INVESTIGATION = 'marram-house'

/** The package before any tampering, and what it was made of: 22 entries, see the fixture. */
export const entries: readonly Entry[] = signedEntries(INVESTIGATION)
export const links: readonly Link[] = linked(entries)
export const sound: Uint8Array = packageOf(entries)
export const head = headAfter(emptyHead(INVESTIGATION), links)

/** Entries and package of another investigation, by the same devices with the same keys. */
export const otherEntries: readonly Entry[] = signedEntries('quay-hotel')
