import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a signed stay is moved to another place',
  layer: 'signatures',
  names: 'entry 7',
  tamper: () =>
    altered(7, (entry) => {
      entry.body['place'] = 'elsewhere'
    }),
}
