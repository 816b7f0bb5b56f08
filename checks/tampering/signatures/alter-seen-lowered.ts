import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a device is made to have seen less than it had',
  layer: 'signatures',
  names: 'entry 21',
  tamper: () =>
    altered(21, (entry) => {
      entry['seen'] = 3
    }),
}
