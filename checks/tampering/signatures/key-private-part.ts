import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a key carries its private part',
  layer: 'record',
  names: 'key',
  tamper: () =>
    altered(4, (entry) => {
      ;(entry.body['key'] as Record<string, unknown>)['d'] = 'A'.repeat(43)
    }),
}
