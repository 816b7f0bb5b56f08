import { resigned, type Loose } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a contested entry is altered, and the server signs what keeps it again',
  layer: 'signatures',
  names: 'phone-2',
  tamper: () =>
    resigned(13, { by: 'server', change: (entry) => ((entry.body['entry'] as Loose).body['consignment'] = 'B9') }),
}
