import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a report is made to have gone to somebody else',
  layer: 'signatures',
  names: 'entry 18',
  tamper: () =>
    altered(18, (entry) => {
      entry.body['issuedTo'] = 'nobody'
    }),
}
