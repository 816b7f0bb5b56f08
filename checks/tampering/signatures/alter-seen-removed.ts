import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'what a device had seen is taken out of its entry',
  layer: 'signatures',
  names: 'entry 10',
  tamper: () =>
    altered(10, (entry) => {
      delete entry['seen']
    }),
}
