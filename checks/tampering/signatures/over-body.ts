import { canonicalJson } from '@rillmark/casebook/chain/canonical.ts'
import { signedOver } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'only the body of an entry is signed',
  layer: 'signatures',
  names: 'entry 9',
  tamper: () => signedOver(9, (entry) => canonicalJson(entry.body)),
}
