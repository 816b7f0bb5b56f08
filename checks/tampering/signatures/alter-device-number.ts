import { altered } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a signed entry takes the next number of its device',
  layer: 'signatures',
  names: 'entry 22',
  tamper: () =>
    altered(22, (entry) => {
      entry.deviceSequence = 40
    }),
}
