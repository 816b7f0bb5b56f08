import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a signed result below its limit becomes another limit',
  layer: 'signatures',
  names: 'entry 20',
  tamper: () =>
    altered(20, (entry) => {
      entry.body['value'] = { kind: 'below', limit: 1, unit: 'CFU/L' }
    }),
}
