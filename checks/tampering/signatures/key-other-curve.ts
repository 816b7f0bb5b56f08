import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a key claims another curve',
  layer: 'record',
  names: 'crv',
  tamper: () =>
    altered(4, (entry) => {
      ;(entry.body['key'] as Record<string, unknown>)['crv'] = 'P-384'
    }),
}
