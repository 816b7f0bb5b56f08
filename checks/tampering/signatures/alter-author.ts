import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the author of a signed entry is altered',
  layer: 'signatures',
  names: 'entry 6',
  tamper: () =>
    altered(6, (entry) => {
      entry['author'] = 'F. Moss'
    }),
}
