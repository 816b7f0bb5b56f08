import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a signature is written in hexadecimal',
  layer: 'record',
  names: 'signature.value',
  tamper: () =>
    altered(9, (entry) => {
      entry.signature.value = Buffer.from(entry.signature.value, 'base64url').toString('hex')
    }),
}
