import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a signed settlement decides the other way',
  layer: 'signatures',
  names: 'entry 14',
  tamper: () =>
    altered(14, (entry) => {
      entry.body['decision'] = 'second stands'
    }),
}
