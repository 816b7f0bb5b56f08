import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a signed entry is moved to another time zone',
  layer: 'signatures',
  names: 'entry 9',
  tamper: () =>
    altered(9, (entry) => {
      entry['offset'] = '+05:00'
    }),
}
