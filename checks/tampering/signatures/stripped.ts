import { altered, type Loose } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a signature is stripped from an entry',
  layer: 'signatures',
  names: 'it is not signed',
  tamper: () =>
    altered(9, (entry) => {
      delete (entry as Partial<Loose>).signature
    }),
}
