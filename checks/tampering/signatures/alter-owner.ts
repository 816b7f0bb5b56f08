import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a signed measure is given to somebody else',
  layer: 'signatures',
  names: 'entry 15',
  tamper: () =>
    altered(15, (entry) => {
      entry.body['owner'] = 'L. Sedge'
    }),
}
