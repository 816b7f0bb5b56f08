import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a default that was written out is left out of a signed entry',
  layer: 'signatures',
  names: 'entry 8',
  tamper: () =>
    altered(8, (entry) => {
      delete entry.body['filter']
    }),
}
