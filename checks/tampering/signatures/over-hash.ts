import { sha256Of } from '@rillmark/casebook/chain/link.ts'
import { signedOver, textOf } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the hash of an entry is signed in place of its text',
  layer: 'signatures',
  names: 'entry 9',
  tamper: () => signedOver(9, (entry) => sha256Of(textOf(entry))),
}
