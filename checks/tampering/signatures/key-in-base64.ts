import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the name of a key is written in base64',
  layer: 'record',
  names: 'signature.key',
  tamper: () =>
    altered(9, (entry) => {
      entry.signature.key = Buffer.from(entry.signature.key, 'hex').toString('base64url')
    }),
}
