import { altered, type Loose } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a contested entry is altered inside the one that keeps it',
  layer: 'signatures',
  names: 'entry 13',
  tamper: () =>
    altered(13, (entry) => {
      ;(entry.body['entry'] as Loose).body['consignment'] = 'B9'
    }),
}
