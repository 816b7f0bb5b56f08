import { altered, keyOf } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a signature names the key of another device',
  layer: 'signatures',
  names: 'signed by another key',
  tamper: () =>
    altered(9, (entry) => {
      entry.signature.key = keyOf('desk-1').thumbprint
    }),
}
