import { canonicalJson } from '@rillmark/casebook/chain/canonical.ts'
import { signedOver, textOf } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'an entry is signed with its number and time of receipt',
  layer: 'signatures',
  names: 'entry 9',
  tamper: () => signedOver(9, (entry) => canonicalJson({ entry: JSON.parse(textOf(entry)) as unknown, sequence: 9 })),
}
